#include "daemon/farm/calendar_text.hpp"

#include <catch2/catch.hpp>

using namespace gley::daemon;
using namespace std::chrono_literals;

TEST_CASE("a month and day may be the 29th of February") {
  CHECK(parse_month_day("02-29") == std::chrono::February / 29);
  CHECK_FALSE(parse_month_day("02-30").has_value());
  CHECK_FALSE(parse_month_day("00-01").has_value());
  CHECK_FALSE(parse_month_day("1-1").has_value());
  CHECK_FALSE(parse_month_day("02-+1").has_value());
}

TEST_CASE("a time of day is read in hours and minutes") {
  CHECK(parse_time_of_day("09:00") == 540min);
  CHECK(parse_time_of_day("23:59") == 1439min);
  for (const char* bad : {"24:00", "9:00", "09.00", "09:60", "09:00:00", "-1:00", ""}) {
    INFO(bad);
    CHECK_FALSE(parse_time_of_day(bad).has_value());
  }
}

TEST_CASE("a day is a date or one of every year, and is written as it was read") {
  for (const char* text : {"2026-03-20", "03-20", "02-29", "2024-02-29"}) {
    INFO(text);
    const auto day = parse_calendar_day(text);
    REQUIRE(day.has_value());
    CHECK(day_text(*day) == text);
  }
  CHECK_FALSE(parse_calendar_day("03-20")->year.has_value());
  for (const char* text : {"2025-02-29", "02-30", "13-01", "3-20", "2026-3-20", ""}) {
    INFO(text);
    CHECK_FALSE(parse_calendar_day(text).has_value());
  }
}

#include "daemon/readings/farm_day.hpp"

#include <catch2/catch.hpp>

#include "daemon/readings/rfc3339.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

// Changes of the clocks: IANA time zone database, europe and africa.

Instant at(const char* text) {
  return parse_rfc3339(text).value();
}

hours length(const FarmCalendar& calendar, sys_days day) {
  return floor<hours>(calendar.ends(day) - calendar.begins(day));
}

TEST_CASE("a farm day of London has 23 or 25 hours when the clocks change") {
  const FarmCalendar calendar("Europe/London", minutes{0});
  CHECK(calendar.begins(2018y / 3 / 25) == at("2018-03-25T00:00:00Z"));
  CHECK(calendar.ends(2018y / 3 / 25) == at("2018-03-25T23:00:00Z"));
  CHECK(calendar.begins(2018y / 10 / 28) == at("2018-10-27T23:00:00Z"));
  CHECK(calendar.ends(2018y / 10 / 28) == at("2018-10-29T00:00:00Z"));
  CHECK(length(calendar, 2018y / 7 / 1) == 24h);
}

TEST_CASE("a farm day that starts at nine starts at nine by the clock all year") {
  const FarmCalendar calendar("Europe/London", 9h);
  CHECK(calendar.begins(2018y / 1 / 10) == at("2018-01-10T09:00:00Z"));
  CHECK(calendar.begins(2018y / 7 / 10) == at("2018-07-10T08:00:00Z"));
  CHECK(length(calendar, 2018y / 3 / 24) == 23h);
  CHECK(length(calendar, 2018y / 10 / 27) == 25h);
  CHECK(calendar.day_of(at("2018-07-10T07:59:59.999Z")) == sys_days(2018y / 7 / 9));
  CHECK(calendar.day_of(at("2018-07-10T08:00:00Z")) == sys_days(2018y / 7 / 10));
}

TEST_CASE("every moment of a year lies in the one day that holds it") {
  for (const char* zone : {"Europe/London", "Africa/Cairo", "America/St_Johns", "UTC"})
    for (const minutes starts : {minutes{0}, minutes{90}, minutes{540}}) {
      const FarmCalendar calendar(zone, starts);
      sys_days before = calendar.day_of(at("2023-01-01T00:00:00Z"));
      for (Instant now = at("2023-01-01T00:00:00Z"); now < at("2024-01-01T00:00:00Z");
           now += minutes{30}) {
        const sys_days day = calendar.day_of(now);
        const bool holds = calendar.begins(day) <= now && now < calendar.ends(day);
        if (!holds || day < before || day > before + days{1}) FAIL(zone << " " << starts.count());
        before = day;
      }
    }
}

TEST_CASE("an amount stamped at the day's start belongs to the day just ended") {
  const FarmCalendar calendar("Europe/London", 9h);
  CHECK(calendar.day_of_amount_until(at("2018-07-10T08:00:00Z")) == sys_days(2018y / 7 / 9));
  CHECK(calendar.day_of_amount_until(at("2018-07-10T08:00:00.001Z")) == sys_days(2018y / 7 / 10));
  CHECK(calendar.day_of_amount_until(at("2018-07-11T08:00:00Z")) == sys_days(2018y / 7 / 10));
}

TEST_CASE("where the clocks jump over midnight the day starts with the jump") {
  // Egypt, 28 April 2023: from 00:00 to 01:00.
  const FarmCalendar calendar("Africa/Cairo", minutes{0});
  CHECK(calendar.begins(2023y / 4 / 28) == at("2023-04-27T22:00:00Z"));
  CHECK(calendar.ends(2023y / 4 / 27) == at("2023-04-27T22:00:00Z"));
  CHECK(length(calendar, 2023y / 4 / 28) == 23h);
  CHECK(calendar.day_of(at("2023-04-27T21:59:59Z")) == sys_days(2023y / 4 / 27));
  CHECK(calendar.day_of(at("2023-04-27T22:00:00Z")) == sys_days(2023y / 4 / 28));
}

TEST_CASE("a day that starts in the hour that comes twice starts the first time") {
  const FarmCalendar calendar("Europe/London", minutes{90});
  CHECK(calendar.begins(2018y / 10 / 28) == at("2018-10-28T00:30:00Z"));
  CHECK(calendar.day_of(at("2018-10-28T01:10:00Z")) == sys_days(2018y / 10 / 28));
}

TEST_CASE("an unknown time zone is refused") {
  CHECK_THROWS_AS(FarmCalendar("Europe/Londno", minutes{0}), std::runtime_error);
}

}  // namespace
}  // namespace gley::daemon

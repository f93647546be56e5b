#include "model/weather/day_flags.hpp"

#include <catch2/catch.hpp>

namespace gley::model {

TEST_CASE("a day without flags has no words") {
  CHECK(to_words({}).empty());
}

TEST_CASE("flags are words in a fixed order, whatever the order of setting") {
  DayFlags flags;
  flags.set(DayFlag::snow);
  flags.set(DayFlag::wind_estimated);
  flags.set(DayFlag::rain_missing);
  CHECK(to_words(flags) == "rain_missing;wind_estimated;snow");
}

TEST_CASE("every flag has its own word") {
  DayFlags all;
  for (unsigned bit = 0; bit < 32; ++bit) all.set(static_cast<DayFlag>(1u << bit));
  CHECK(to_words(all) ==
        "day_missing;rain_missing;rain_partial;rain_doubtful;rain_borrowed;temperature_missing;"
        "temperature_estimated;temperature_doubtful;temperature_borrowed;humidity_estimated;"
        "humidity_doubtful;humidity_borrowed;radiation_estimated;radiation_doubtful;"
        "radiation_borrowed;wind_estimated;wind_doubtful;wind_borrowed;et0_given;et0_negative;"
        "et0_missing;start_assumed;frozen;snow");
}

}  // namespace gley::model

#include "daemon/readings/day_record.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;

const FarmCalendar utc("UTC", minutes{0});
const sys_days day = 2024y / 5 / 14;

/// A reading of one source so long after the day's start.
Reading reading(Quantity quantity, ReadingForm form, minutes after, double value,
                const std::string& source = "a") {
  return {.station = "yard",
          .quantity = quantity,
          .form = form,
          .source = source,
          .time = day + after,
          .time_source = TimeSource::payload,
          .value = value};
}

DayRecord record_of(std::vector<Reading> of_day, std::vector<Reading> before = {}) {
  return day_record({.of_day = std::move(of_day), .before = std::move(before)}, day, utc);
}

using enum Quantity;
using enum ReadingForm;

TEST_CASE("a day without a reading has an empty record") {
  CHECK(record_of({}) == DayRecord{});
}

TEST_CASE("interval amounts of a day are summed") {
  const DayRecord record =
      record_of({reading(rain, interval, 6h, 0.25), reading(rain, interval, 7h, 0.5),
                 reading(irrigation, interval, 7h, 12.0), reading(sunshine, interval, 12h, 0.75),
                 reading(sunshine, interval, 13h, 1.0)});
  CHECK(record.weather.rain_mm == 0.75);
  CHECK(record.weather.irrigation_mm == 12.0);
  CHECK(record.weather.sun_h == 1.75);
}

TEST_CASE("a counter's day is what it rose since the last count of the day before") {
  const auto before = reading(rain, counter, -30min, 100.0);
  CHECK(record_of({reading(rain, counter, 1h, 100.5), reading(rain, counter, 20h, 103.0)}, {before})
            .weather.rain_mm == 3.0);
  CHECK(record_of({reading(rain, counter, 1h, 100.5), reading(rain, counter, 20h, 103.0)})
            .weather.rain_mm == 2.5);
}

TEST_CASE("a counter that fell has started again from nothing") {
  const auto before = reading(rain, counter, -30min, 100.0);
  CHECK(record_of({reading(rain, counter, 1h, 101.0), reading(rain, counter, 2h, 0.5),
                   reading(rain, counter, 3h, 2.0)},
                  {before})
            .weather.rain_mm == 3.0);
  CHECK(record_of({reading(rain, counter, 1h, 0.25)}, {before}).weather.rain_mm == 0.25);
}

TEST_CASE("counts of another source or quantity are no start for a counter") {
  const auto other_source = reading(rain, counter, -30min, 90.0, "b");
  const auto other_quantity = reading(irrigation, counter, -30min, 90.0);
  CHECK(record_of({reading(rain, counter, 1h, 100.0), reading(rain, counter, 2h, 101.0)},
                  {other_source, other_quantity})
            .weather.rain_mm == 1.0);
}

TEST_CASE("a rate counts for the time since the rate before, one hour at most") {
  CHECK(record_of({reading(rain, rate, 10h, 9.0), reading(rain, rate, 10h + 30min, 4.0),
                   reading(rain, rate, 15h, 3.0)})
            .weather.rain_mm == 5.0);
}

TEST_CASE("the first rate of a day counts from the last of the day before") {
  CHECK(record_of({reading(rain, rate, 30min, 4.0)}, {reading(rain, rate, -30min, 9.0)})
            .weather.rain_mm == 4.0);
}

TEST_CASE("a count or rate that none precedes tells no amount") {
  CHECK_FALSE(record_of({reading(rain, counter, 1h, 100.0)}).weather.rain_mm);
  CHECK_FALSE(record_of({reading(rain, rate, 1h, 4.0)}).weather.rain_mm);
}

TEST_CASE("extremes of temperature need two readings") {
  const DayRecord one = record_of({reading(temperature, instant, 6h, 4.5)});
  CHECK_FALSE(one.weather.tmin_c);
  CHECK_FALSE(one.weather.tmax_c);
  const DayRecord three =
      record_of({reading(temperature, instant, 6h, 4.5), reading(temperature, instant, 14h, 12.5),
                 reading(temperature, instant, 20h, 7.0)});
  CHECK(three.weather.tmin_c == 4.5);
  CHECK(three.weather.tmax_c == 12.5);
  CHECK(three.weather.tmean_c == 8.0);
}

TEST_CASE("one humidity is a mean, two give extremes") {
  const DayRecord one = record_of({reading(humidity, instant, 6h, 80.0)});
  CHECK(one.weather.rh_mean_pct == 80.0);
  CHECK_FALSE(one.weather.rh_min_pct);
  const DayRecord two =
      record_of({reading(humidity, instant, 6h, 96.0), reading(humidity, instant, 15h, 60.0)});
  CHECK(two.weather.rh_mean_pct == 78.0);
  CHECK(two.weather.rh_min_pct == 60.0);
  CHECK(two.weather.rh_max_pct == 96.0);
}

TEST_CASE("dew point and wind are means") {
  const DayRecord record =
      record_of({reading(dew_point, instant, 6h, 4.0), reading(dew_point, instant, 12h, 6.0),
                 reading(wind, instant, 6h, 1.0), reading(wind, instant, 12h, 4.0)});
  CHECK(record.weather.dew_point_c == 5.0);
  CHECK(record.weather.wind_m_s == 2.5);
}

TEST_CASE("radiation is a mean of instants over the day, or a sum of amounts") {
  // 100 W/m2 for 86400 s are 8.64 MJ/m2.
  CHECK(record_of({reading(radiation, instant, 6h, 50.0), reading(radiation, instant, 12h, 150.0)})
            .weather.solar_mj_m2.value() == Approx(8.64).epsilon(1e-12));
  CHECK(record_of({reading(radiation, interval, 6h, 2.0), reading(radiation, interval, 12h, 5.5)})
            .weather.solar_mj_m2 == 7.5);
}

TEST_CASE("of two sources of one amount the one that spoke more counts, ties by name") {
  CHECK(record_of({reading(rain, interval, 1h, 9.0, "b"), reading(rain, interval, 2h, 1.0, "c"),
                   reading(rain, interval, 3h, 1.0, "c")})
            .weather.rain_mm == 2.0);
  CHECK(record_of({reading(rain, interval, 1h, 9.0, "b"), reading(rain, interval, 2h, 1.0, "a")})
            .weather.rain_mm == 1.0);
}

TEST_CASE("a day is complete when heard near both its ends, with rain and both extremes") {
  const std::vector<Reading> whole{reading(temperature, instant, 5h, 4.0),
                                   reading(temperature, instant, 14h, 9.0),
                                   reading(rain, interval, 24h, 3.0)};
  CHECK(record_of(whole).complete);
  CHECK_FALSE(record_of({whole[0], whole[1]}).complete);
  CHECK_FALSE(record_of({whole[0], whole[2]}).complete);
  CHECK_FALSE(record_of({whole[0], whole[1], reading(rain, interval, 15h, 3.0)}).complete);
  CHECK_FALSE(record_of({reading(temperature, instant, 7h, 4.0), whole[1], whole[2]}).complete);
}

}  // namespace
}  // namespace gley::daemon

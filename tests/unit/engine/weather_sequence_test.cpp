#include "daemon/engine/weather/weather_sequence.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;
using model::DayFlag;

const model::Site site{.latitude_deg = 53.4, .elevation_m = 71.0};
const sys_days monday = 2024y / 5 / 13;

DayRecord record(const model::DailyWeather& weather) {
  return {.weather = weather, .flags = {}, .complete = true, .loaded = false};
}

/// Two stations, the yard trusted before the brook.
struct Two {
  StationRecord yard;
  StationRecord brook;
  WeatherSequence sequence{{{"yard", site, &yard}, {"brook", site, &brook}}};

  void remake(int days_after_monday) {
    sequence.remake(monday - days{10}, monday + days{days_after_monday});
  }
  [[nodiscard]] const model::StationDay& day(int after) const {
    return sequence.days().at(static_cast<std::size_t>(after));
  }
};

TEST_CASE("rain is the first station's that has it, the air the first's that has temperatures") {
  Two two;
  two.yard[monday] = record({.rain_mm = 3.0, .wind_m_s = 9.0});
  two.brook[monday] = record({.rain_mm = 5.0, .tmin_c = 4.0, .tmax_c = 12.0, .wind_m_s = 2.0});
  two.yard[monday + days{1}] = record({.tmin_c = 6.0, .tmax_c = 11.0});
  two.brook[monday + days{1}] = record({.rain_mm = 1.0, .tmin_c = 1.0, .tmax_c = 2.0});
  two.remake(1);
  CHECK(two.day(0).weather.rain_mm == 3.0);
  CHECK(two.day(0).weather.tmin_c == 4.0);
  CHECK(two.day(0).weather.wind_m_s == 2.0);
  CHECK(two.day(1).weather.rain_mm == 1.0);
  CHECK(two.day(1).weather.tmin_c == 6.0);
  CHECK(two.sequence.rain_station(monday) == "yard");
  CHECK(two.sequence.rain_station(monday + days{1}) == "brook");
  CHECK(two.sequence.rain_station(monday + days{2}) == "yard");
}

TEST_CASE("a gap in the days is filled and flagged") {
  Two two;
  two.yard[monday] = record({.rain_mm = 3.0, .tmin_c = 4.0, .tmax_c = 12.0});
  two.yard[monday + days{3}] = record({.rain_mm = 0.5, .tmin_c = 5.0, .tmax_c = 13.0});
  two.remake(3);
  REQUIRE(two.sequence.days().size() == 4);
  for (const int gap : {1, 2}) {
    CHECK(two.day(gap).date == monday + days{gap});
    CHECK(two.day(gap).flags.has(DayFlag::day_missing));
    CHECK(two.day(gap).flags.has(DayFlag::rain_missing));
    CHECK(two.day(gap).flags.has(DayFlag::temperature_estimated));
    CHECK(two.day(gap).weather.tmax_c == 12.0);
  }
  CHECK_FALSE(two.day(3).flags.has(DayFlag::day_missing));
}

TEST_CASE("days begin with the first on record at any station, which may move back") {
  Two two;
  two.brook[monday + days{4}] = record({.rain_mm = 1.0, .tmin_c = 4.0, .tmax_c = 12.0});
  two.remake(5);
  REQUIRE(two.sequence.days().size() == 2);
  two.yard[monday] = record({.rain_mm = 2.0, .tmin_c = 3.0, .tmax_c = 9.0});
  two.sequence.remake(monday, monday + days{5});
  REQUIRE(two.sequence.days().size() == 6);
  CHECK(two.day(0).weather.rain_mm == 2.0);
  CHECK(two.day(3).weather.tmax_c == 9.0);
}

TEST_CASE("remaking from a day on gives what making all anew gives") {
  Two one_by_one;
  for (int n = 0; n < 9; ++n) {
    if (n % 4 != 2)
      one_by_one.yard[monday + days{n}] = record({.rain_mm = n, .tmin_c = 1.0 * n, .tmax_c = 20.0});
    one_by_one.sequence.remake(monday + days{n}, monday + days{n});
  }
  Two at_once;
  at_once.yard = one_by_one.yard;
  at_once.remake(8);
  REQUIRE(one_by_one.sequence.days().size() == at_once.sequence.days().size());
  for (int n = 0; n < 9; ++n) {
    CHECK(one_by_one.day(n).weather == at_once.day(n).weather);
    CHECK(one_by_one.day(n).flags == at_once.day(n).flags);
    CHECK(one_by_one.day(n).et.et0_mm == at_once.day(n).et.et0_mm);
  }
}

TEST_CASE("stations without a day on record make no days") {
  Two two;
  two.remake(5);
  CHECK(two.sequence.days().empty());
  CHECK_FALSE(two.sequence.has_record_of(monday));
}

TEST_CASE("today has its own rain, and yesterday's extremes widened by what was seen") {
  Two two;
  two.yard[monday] = record({.rain_mm = 3.0, .tmin_c = 4.0, .tmax_c = 12.0, .wind_m_s = 5.0});
  two.yard[monday + days{1}] = record({.rain_mm = 15.0, .tmin_c = 8.0, .tmax_c = 14.0});
  two.remake(0);
  CHECK(two.sequence.has_record_of(monday + days{1}));
  const model::StationDay today = two.sequence.today(monday + days{1});
  CHECK(today.weather.rain_mm == 15.0);
  CHECK(today.weather.tmin_c == 4.0);
  CHECK(today.weather.tmax_c == 14.0);
  CHECK(today.weather.wind_m_s == 5.0);
  CHECK(two.sequence.days().size() == 1);
}

}  // namespace
}  // namespace gley::daemon

#include "daemon/engine/weather/today_so_far.hpp"

#include <catch2/catch.hpp>

using namespace gley::daemon;
using gley::model::DailyWeather;

namespace {

TodaySoFar today() {
  return {.date = std::chrono::year{2026} / 5 / 13,
          .site = {.latitude_deg = 53.4, .elevation_m = 71.0},
          .last_known = gley::model::TemperatureRange{4.0, 12.0},
          .seen = {.rain_mm = 3.0, .tmin_c = 6.0, .tmax_c = 9.0},
          .yesterday = DailyWeather{
              .rain_mm = 1.0, .tmin_c = 4.0, .tmax_c = 12.0, .wind_m_s = 3.0, .sun_h = 5.0}};
}

}  // namespace

TEST_CASE("today has the rain that was seen and that is still expected") {
  CHECK(today_of(today(), {.rain_mm = 2.5}).weather.rain_mm == 5.5);
  CHECK(today_of(today(), {}).weather.rain_mm == 3.0);
}

TEST_CASE("the forecast's extremes are widened by what was seen, else yesterday's are") {
  const DailyWeather warm = today_of(today(), {.tmin_c = 7.0, .tmax_c = 15.0}).weather;
  CHECK(warm.tmin_c == 6.0);
  CHECK(warm.tmax_c == 15.0);
  const DailyWeather without = today_of(today(), {}).weather;
  CHECK(without.tmin_c == 4.0);
  CHECK(without.tmax_c == 12.0);
}

TEST_CASE("sun is the forecast's or yesterday's, never that of half a day") {
  TodaySoFar day = today();
  day.seen.sun_h = 1.0;
  CHECK(today_of(day, {}).weather.sun_h == 5.0);
  CHECK(today_of(day, {.sun_h = 7.0}).weather.sun_h == 7.0);
}

TEST_CASE("wind is what was seen, then the forecast's, then yesterday's") {
  TodaySoFar day = today();
  CHECK(today_of(day, {}).weather.wind_m_s == 3.0);
  CHECK(today_of(day, {.wind_m_s = 4.0}).weather.wind_m_s == 4.0);
  day.seen.wind_m_s = 5.0;
  CHECK(today_of(day, {.wind_m_s = 4.0}).weather.wind_m_s == 5.0);
}

TEST_CASE("humidity is what was seen, extremes alone too, then the forecast's") {
  TodaySoFar day = today();
  CHECK(today_of(day, {.rh_mean_pct = 70.0}).weather.rh_mean_pct == 70.0);
  day.seen.rh_max_pct = 95.0;
  const DailyWeather weather = today_of(day, {.rh_mean_pct = 70.0}).weather;
  CHECK(weather.rh_max_pct == 95.0);
  CHECK_FALSE(weather.rh_mean_pct);
}

TEST_CASE("a forecast's wind is taken to the height the station measures at") {
  TodaySoFar day = today();
  day.site.wind_height_m = 10.0;
  day.seen.tmin_c.reset();
  CHECK(*today_of(day, {.wind_m_s = 2.4}).weather.wind_m_s == Approx(3.2).margin(0.05));
}

TEST_CASE("a day forecast by its mean gets the last known range about it") {
  const auto days = days_ahead(today(), {{.rain_mm = 0.0}, {.rain_mm = 1.0, .tmean_c = 10.0}});
  REQUIRE(days.size() == 2);
  CHECK(days[1].date == today().date + std::chrono::days{1});
  CHECK(days[1].weather.tmin_c == 6.0);
  CHECK(days[1].weather.tmax_c == 14.0);
}

TEST_CASE("where no temperature was ever known, demand goes on as it was") {
  TodaySoFar day = today();
  day.last_known.reset();
  day.seen = {};
  day.yesterday = DailyWeather{.rain_mm = 0.0, .et0_mm = 2.5};
  const auto days = days_ahead(day, {{.rain_mm = 0.0}, {.rain_mm = 0.0}});
  CHECK(days[0].et.et0_mm == 2.5);
  CHECK(days[1].et.et0_mm == 2.5);
  const auto warm =
      days_ahead(day, {{.rain_mm = 0.0}, {.rain_mm = 0.0, .tmin_c = 5, .tmax_c = 15}});
  CHECK_FALSE(warm[1].weather.et0_mm.has_value());
}

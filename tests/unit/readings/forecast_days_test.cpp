#include "daemon/readings/forecast_days.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/readings/forecast_example.hpp"

using namespace gley::daemon;
using namespace gley::tests;
using Catch::Matchers::Contains;
using std::chrono::days;

namespace {

const FarmCalendar calendar("Europe/London", std::chrono::minutes{0});

/// One member by the hour from 11:00 on, an hour's rain of 0.1 mm, temperatures rising by the hour.
Forecast hourly(int hours) {
  Forecast forecast;
  ForecastSeries rain{Quantity::rain, ReadingForm::interval, {}, {{}}};
  ForecastSeries warmth{Quantity::temperature, ReadingForm::instant, {}, {{}}};
  for (int h = 1; h <= hours; ++h) {
    rain.times.push_back(forecast_came + std::chrono::hours{h});
    rain.members[0].push_back(0.1);
    warmth.times.push_back(forecast_came + std::chrono::hours{h});
    warmth.members[0].push_back(h);
  }
  forecast.series = {rain, warmth};
  return forecast;
}

}  // namespace

TEST_CASE("today holds the rain still to come, the next day all of its own") {
  const ForecastDays ahead = forecast_days(hourly(14 + 24), calendar, forecast_came, 2);
  REQUIRE(ahead.days == 2);
  CHECK(ahead.problem.empty());
  CHECK(ahead.first == forecast_day);
  CHECK(*ahead.weather[0][0].rain_mm == Approx(1.4));  // 11:00 to 24:00 and its stamp
  CHECK(*ahead.weather[0][1].rain_mm == Approx(2.4));
  // Hour 14 is midnight: a value by the clock belongs to the day it begins.
  CHECK(ahead.weather[0][0].tmax_c == 13.0);
  CHECK(ahead.weather[0][1].tmin_c == 14.0);
  CHECK(ahead.weather[0][1].tmax_c == 37.0);
}

TEST_CASE("rain of a step under way counts by the time that is left") {
  const Instant half_past = forecast_came + 30min;
  const ForecastDays ahead = forecast_days(hourly(14), calendar, half_past, 1);
  REQUIRE(ahead.days == 1);
  CHECK(*ahead.weather[0][0].rain_mm == Approx(1.35));
  REQUIRE(ahead.rain.size() == 14);
  CHECK(ahead.rain.front().from == half_past);
  CHECK(ahead.rain.front().by_member_mm[0] == Approx(0.05));
}

TEST_CASE("an outlook goes no further than the forecast tells") {
  CHECK(forecast_days(hourly(14 + 24), calendar, forecast_came, 7).days == 2);
  CHECK(forecast_days(hourly(14 + 21), calendar, forecast_came, 7).days == 2);  // 3 h short
  const ForecastDays shorter = forecast_days(hourly(14 + 20), calendar, forecast_came, 7);
  CHECK(shorter.days == 1);
  CHECK_THAT(shorter.problem, Contains("stops, or has a gap, on 2026-03-03"));
}

TEST_CASE("a gap in any member ends the outlook") {
  Forecast gap = hourly(14 + 48);
  gap.series[0].members[0][20].reset();
  const ForecastDays ahead = forecast_days(gap, calendar, forecast_came, 3);
  CHECK(ahead.days == 1);
  CHECK_THAT(ahead.problem, Contains("2026-03-03"));
}

TEST_CASE("a forecast that begins late tells nothing of today, so nothing at all") {
  const ForecastDays ahead = forecast_days(hourly(40), calendar, forecast_came - 4h, 2);
  CHECK(ahead.days == 0);
  CHECK_THAT(ahead.problem, Contains("nothing of the next hours"));
}

TEST_CASE("a forecast by the day gives its mean temperature and no extremes") {
  Forecast daily;
  ForecastSeries rain{Quantity::rain, ReadingForm::interval, {}, {{}}};
  ForecastSeries warmth{Quantity::temperature, ReadingForm::instant, {}, {{}}};
  for (int d = 0; d < 3; ++d) {
    rain.times.push_back(calendar.ends(forecast_day + days{d}));
    rain.members[0].push_back(4.8);
    warmth.times.push_back(calendar.begins(forecast_day + days{d}) + 12h);
    warmth.members[0].push_back(8.0 + d);
  }
  daily.series = {rain, warmth};
  const ForecastDays ahead = forecast_days(daily, calendar, forecast_came, 3);
  REQUIRE(ahead.days == 3);
  CHECK(*ahead.weather[0][0].rain_mm == Approx(2.8));  // 14 of 24 hours are left
  CHECK(*ahead.weather[0][2].rain_mm == Approx(4.8));
  CHECK(ahead.weather[0][1].tmean_c == 9.0);
  CHECK_FALSE(ahead.weather[0][1].tmin_c.has_value());
}

TEST_CASE("wind is brought from the forecast's height to 2 m") {
  // Allen et al. (1998), FAO-56, Example 14: 3.2 m/s at 10 m are 2.4 at 2 m.
  Forecast windy = hourly(14);
  ForecastSeries wind = windy.series[1];
  wind.quantity = Quantity::wind;
  for (auto& value : wind.members[0]) value = 3.2;
  windy.series.push_back(wind);
  const ForecastDays ahead = forecast_days(windy, calendar, forecast_came, 1);
  CHECK(*ahead.weather[0][0].wind_m_s == Approx(2.4).margin(0.05));
}

TEST_CASE("the day on which clocks change has its own length") {
  // 29 March 2026: 23 hours in London.
  const Instant now{std::chrono::sys_days{std::chrono::year{2026} / 3 / 29}};
  Forecast forecast = hourly(23);
  for (ForecastSeries& series : forecast.series)
    for (std::size_t h = 0; h < series.times.size(); ++h)
      series.times[h] = now + std::chrono::hours{h + 1};
  const ForecastDays ahead = forecast_days(forecast, calendar, now, 1);
  REQUIRE(ahead.days == 1);
  CHECK(*ahead.weather[0][0].rain_mm == Approx(2.3));
}

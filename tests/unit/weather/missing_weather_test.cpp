#include <catch2/catch.hpp>

#include "model/weather/missing.hpp"

namespace gley::model {
namespace {

using enum DayFlag;

constexpr TemperatureRange yesterday{.tmin_c = 4.0, .tmax_c = 12.0};

DailyWeather day_with(std::optional<double> tmin_c, std::optional<double> tmax_c) {
  DailyWeather day;
  day.rain_mm = 1.0;
  day.tmin_c = tmin_c;
  day.tmax_c = tmax_c;
  return day;
}

}  // namespace

TEST_CASE("a whole day is left as it is") {
  const CompletedWeather day = complete_weather(day_with(3.0, 9.0), yesterday);
  CHECK(day.weather == day_with(3.0, 9.0));
  CHECK(day.flags == DayFlags{});
}

TEST_CASE("rain not known is taken as none and flagged") {
  DailyWeather weather = day_with(3.0, 9.0);
  weather.rain_mm.reset();
  const CompletedWeather day = complete_weather(weather, yesterday);
  CHECK(day.weather.rain_mm == 0.0);
  CHECK(day.flags.has(rain_missing));
  CHECK_FALSE(day.flags.has(day_missing));
}

TEST_CASE("temperatures not known are the last known ones, flagged") {
  const CompletedWeather day = complete_weather(day_with({}, {}), yesterday);
  CHECK(day.weather.tmin_c == 4.0);
  CHECK(day.weather.tmax_c == 12.0);
  CHECK(day.flags.has(temperature_estimated));
  CHECK_FALSE(day.flags.has(temperature_missing));
}

TEST_CASE("one extreme carried over never passes the other that was measured") {
  const CompletedWeather warm = complete_weather(day_with(15.0, {}), yesterday);
  CHECK(warm.weather.tmax_c == 15.0);
  const CompletedWeather cold = complete_weather(day_with({}, -2.0), yesterday);
  CHECK(cold.weather.tmin_c == -2.0);
  CHECK(cold.flags.has(temperature_estimated));
}

TEST_CASE("temperatures never known stay absent, flagged") {
  const CompletedWeather day = complete_weather(day_with({}, {}), std::nullopt);
  CHECK_FALSE(day.weather.tmin_c);
  CHECK_FALSE(day.weather.tmax_c);
  CHECK(day.flags.has(temperature_missing));
}

TEST_CASE("a day with a given ET0 is given no temperatures") {
  DailyWeather weather = day_with({}, {});
  weather.et0_mm = 2.0;
  const CompletedWeather day = complete_weather(weather, yesterday);
  CHECK_FALSE(day.weather.tmin_c);
  CHECK(day.flags.has(temperature_missing));
  CHECK_FALSE(day.flags.has(temperature_estimated));
}

TEST_CASE("a day of which nothing is known is called missing") {
  const CompletedWeather day = complete_weather({}, yesterday);
  CHECK(day.flags.has(day_missing));
  CHECK(day.flags.has(rain_missing));
  CHECK(day.flags.has(temperature_estimated));
}

TEST_CASE("only a day with both extremes is carried over") {
  CHECK(known_temperatures(day_with(1.0, {}), yesterday)->tmin_c == 4.0);
  CHECK(known_temperatures(day_with(1.0, 2.0), yesterday)->tmax_c == 2.0);
  CHECK_FALSE(known_temperatures(day_with(1.0, {}), std::nullopt));
}

}  // namespace gley::model

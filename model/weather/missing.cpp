#include "model/weather/missing.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {
namespace {

void carry_over(DailyWeather& weather, const TemperatureRange& last) {
  const bool tmin_known = weather.tmin_c.has_value();
  const bool tmax_known = weather.tmax_c.has_value();
  if (!tmin_known) weather.tmin_c = tmax_known ? least(last.tmin_c, *weather.tmax_c) : last.tmin_c;
  if (!tmax_known) weather.tmax_c = greatest(last.tmax_c, *weather.tmin_c);
}

void complete_temperatures(CompletedWeather& day,
                           const std::optional<TemperatureRange>& last_known) {
  if (day.weather.tmin_c && day.weather.tmax_c) return;
  if (day.weather.et0_mm || !last_known) {
    day.flags.set(DayFlag::temperature_missing);
    return;
  }
  carry_over(day.weather, *last_known);
  day.flags.set(DayFlag::temperature_estimated);
}

}  // namespace

CompletedWeather complete_weather(const DailyWeather& weather,
                                  const std::optional<TemperatureRange>& last_known) {
  CompletedWeather day{.weather = weather, .flags = {}};
  day.flags.set(DayFlag::day_missing, weather == DailyWeather{});
  day.flags.set(DayFlag::rain_missing, !weather.rain_mm);
  if (!weather.rain_mm) day.weather.rain_mm = 0.0;
  complete_temperatures(day, last_known);
  return day;
}

std::optional<TemperatureRange> extremes_of(const DailyWeather& weather) {
  if (!weather.tmin_c || !weather.tmax_c) return std::nullopt;
  return TemperatureRange{.tmin_c = *weather.tmin_c, .tmax_c = *weather.tmax_c};
}

std::optional<TemperatureRange> known_temperatures(const DailyWeather& weather,
                                                   const std::optional<TemperatureRange>& before) {
  const auto own = extremes_of(weather);
  return own ? own : before;
}

}  // namespace gley::model

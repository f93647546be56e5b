#pragma once
#include <vector>

#include "daemon/farm/field_setup.hpp"
#include "model/weather/station_day.hpp"

namespace gley::daemon {

inline const std::chrono::sys_days first_past_day = std::chrono::year{2023} / 2 / 20;

/// Weather without measured meaning, each day unlike its neighbours: showers, frost, dry spells.
inline model::DailyWeather past_weather(int n) {
  const double warmth = 6.0 + (n % 60) / 4.0;
  return {.rain_mm = n % 7 < 3 ? (n * 13 % 29) / 2.0 : 0.0,
          .tmin_c = warmth - 8.0 + n % 5,
          .tmax_c = warmth + n % 3};
}

inline std::vector<model::StationDay> past_days(int count) {
  model::StationDays whole({.latitude_deg = 53.4, .elevation_m = 71.0});
  std::vector<model::StationDay> days;
  for (int n = 0; n < count; ++n)
    days.push_back(whole.next(first_past_day + std::chrono::days{n}, past_weather(n)));
  return days;
}

inline model::Field clay_field() {
  FieldConfig config;
  config.id = "top";
  config.soil = SoilByClass{"clay loam"};
  config.drainage = DrainageClass::slow;
  config.crop = std::string("grass");
  return field_of(config);
}

}  // namespace gley::daemon

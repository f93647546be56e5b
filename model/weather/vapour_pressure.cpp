#include "model/weather/vapour_pressure.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

double saturation_vapour_pressure_kpa(double temperature_c) noexcept {
  return 0.6108 * exponential(17.27 * temperature_c / (temperature_c + 237.3));
}

double saturation_slope_kpa_c(double temperature_c) noexcept {
  const double t = temperature_c + 237.3;
  return 4098.0 * saturation_vapour_pressure_kpa(temperature_c) / (t * t);
}

double mean_temperature_c(const TemperatureRange& day) noexcept {
  return (day.tmax_c + day.tmin_c) / 2.0;
}

double mean_saturation_vapour_pressure_kpa(const TemperatureRange& day) noexcept {
  return (saturation_vapour_pressure_kpa(day.tmax_c) + saturation_vapour_pressure_kpa(day.tmin_c)) /
         2.0;
}

double vapour_pressure_from_extremes_kpa(const TemperatureRange& day,
                                         const HumidityRange& humidity) noexcept {
  // The printed line of Example 5 lacks the division by 2; the equation and the answer have it.
  return (saturation_vapour_pressure_kpa(day.tmin_c) * humidity.rh_max_pct +
          saturation_vapour_pressure_kpa(day.tmax_c) * humidity.rh_min_pct) /
         200.0;
}

double vapour_pressure_from_rh_max_kpa(const NightHumidity& night) noexcept {
  return saturation_vapour_pressure_kpa(night.tmin_c) * night.rh_max_pct / 100.0;
}

double vapour_pressure_from_rh_mean_kpa(const TemperatureRange& day, double rh_mean_pct) noexcept {
  return rh_mean_pct / 100.0 * mean_saturation_vapour_pressure_kpa(day);
}

double least_humidity_pct(const AfternoonAir& air) noexcept {
  return held_between(0.0, 100.0 * air.ea_kpa / saturation_vapour_pressure_kpa(air.tmax_c), 100.0);
}

}  // namespace gley::model

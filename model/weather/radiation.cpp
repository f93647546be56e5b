#include "model/weather/radiation.hpp"

#include <cmath>

namespace gley::model {

double evaporation_depth_mm(double energy_mj_m2) noexcept {
  return 0.408 * energy_mj_m2;
}

double radiation_from_sunshine_mj_m2(const Sunshine& day) noexcept {
  const double share = day.daylight_h > 0.0 ? day.sun_h / day.daylight_h : 0.0;
  return (0.25 + 0.50 * share) * day.ra_mj_m2;
}

double radiation_from_temperature_mj_m2(const TemperatureSky& day) noexcept {
  return day.krs * std::sqrt(day.temperature.tmax_c - day.temperature.tmin_c) * day.ra_mj_m2;
}

double clear_sky_radiation_mj_m2(const ClearSky& sky) noexcept {
  return (0.75 + 2e-5 * sky.elevation_m) * sky.ra_mj_m2;
}

double net_shortwave_mj_m2(double rs_mj_m2) noexcept {
  return (1.0 - 0.23) * rs_mj_m2;
}

double black_body_radiation_mj_m2(double temperature_c) noexcept {
  const double kelvin = temperature_c + 273.16;
  return 4.903e-9 * (kelvin * kelvin) * (kelvin * kelvin);
}

double net_longwave_mj_m2(const LongwaveSky& sky) noexcept {
  const double emitted = (black_body_radiation_mj_m2(sky.temperature.tmax_c) +
                          black_body_radiation_mj_m2(sky.temperature.tmin_c)) /
                         2.0;
  return emitted * (0.34 - 0.14 * std::sqrt(sky.ea_kpa)) * (1.35 * sky.clearness - 0.35);
}

}  // namespace gley::model

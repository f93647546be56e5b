#include "model/weather/humidity_source.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {
namespace {

VapourPressure estimated(const Site& site, const TemperatureRange& temperature) {
  const double dew_point_c = site.dew_point_offset_c
                                 ? mean_temperature_c(temperature) + *site.dew_point_offset_c
                                 : temperature.tmin_c;  // Eq. 48
  VapourPressure vapour{.ea_kpa = saturation_vapour_pressure_kpa(dew_point_c), .flags = {}};
  vapour.flags.set(DayFlag::humidity_estimated);
  return vapour;
}

}  // namespace

std::optional<double> usable_humidity_pct(std::optional<double> measured_pct) noexcept {
  if (!measured_pct || *measured_pct <= 0.0) return std::nullopt;
  return least(*measured_pct, 100.0);
}

VapourPressure actual_vapour_pressure(const Site& site, const DailyWeather& weather,
                                      const TemperatureRange& temperature) {
  const auto rh_min = usable_humidity_pct(weather.rh_min_pct);
  const auto rh_max = usable_humidity_pct(weather.rh_max_pct);
  const auto rh_mean = usable_humidity_pct(weather.rh_mean_pct);
  if (weather.dew_point_c) {
    return {.ea_kpa = saturation_vapour_pressure_kpa(*weather.dew_point_c), .flags = {}};
  }
  if (rh_max && rh_min) {
    return {.ea_kpa = vapour_pressure_from_extremes_kpa(
                temperature, {.rh_min_pct = *rh_min, .rh_max_pct = *rh_max}),
            .flags = {}};
  }
  if (rh_max) {
    return {.ea_kpa = vapour_pressure_from_rh_max_kpa(
                {.tmin_c = temperature.tmin_c, .rh_max_pct = *rh_max}),
            .flags = {}};
  }
  if (rh_mean) {
    return {.ea_kpa = vapour_pressure_from_rh_mean_kpa(temperature, *rh_mean), .flags = {}};
  }
  return estimated(site, temperature);
}

}  // namespace gley::model

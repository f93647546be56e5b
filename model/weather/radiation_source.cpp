#include "model/weather/radiation_source.hpp"

#include "model/numeric/elementary.hpp"
#include "model/weather/radiation.hpp"

namespace gley::model {
namespace {

SolarRadiation from_measurement(double solar_mj_m2, const SkyLimits& sky) {
  SolarRadiation radiation{.rs_mj_m2 = solar_mj_m2, .flags = {}};
  if (solar_mj_m2 - sky.rso_mj_m2 <= doubtful_excess_mj_m2) return radiation;
  if (solar_mj_m2 <= doubtful_share_of_clear_sky * sky.rso_mj_m2) return radiation;
  radiation.rs_mj_m2 = least(solar_mj_m2, sky.ra_mj_m2);
  radiation.flags.set(DayFlag::radiation_doubtful);
  return radiation;
}

SolarRadiation from_sunshine(double sun_h, const SkyLimits& sky) {
  SolarRadiation radiation;
  radiation.rs_mj_m2 = radiation_from_sunshine_mj_m2({.sun_h = least(sun_h, sky.daylight_h),
                                                      .daylight_h = sky.daylight_h,
                                                      .ra_mj_m2 = sky.ra_mj_m2});
  radiation.flags.set(DayFlag::radiation_doubtful, sun_h > sky.daylight_h);
  return radiation;
}

}  // namespace

SolarRadiation solar_radiation(const Site& site, const DailyWeather& weather,
                               const TemperatureRange& temperature, const SkyLimits& sky) {
  if (weather.solar_mj_m2 && *weather.solar_mj_m2 >= 0.0) {
    return from_measurement(*weather.solar_mj_m2, sky);
  }
  if (weather.sun_h && *weather.sun_h >= 0.0) return from_sunshine(*weather.sun_h, sky);
  SolarRadiation radiation;
  radiation.rs_mj_m2 = least(
      sky.rso_mj_m2, radiation_from_temperature_mj_m2(
                         {.temperature = temperature, .ra_mj_m2 = sky.ra_mj_m2, .krs = site.krs}));
  radiation.flags.set(DayFlag::radiation_estimated);
  return radiation;
}

}  // namespace gley::model

#include "model/weather/reference_et.hpp"

#include "model/numeric/elementary.hpp"
#include "model/weather/humidity_source.hpp"
#include "model/weather/penman_monteith.hpp"
#include "model/weather/pressure.hpp"
#include "model/weather/radiation.hpp"
#include "model/weather/radiation_source.hpp"
#include "model/weather/sun_path.hpp"
#include "model/weather/wind.hpp"

namespace gley::model {
namespace {

constexpr double assumed_wind_m_s = 2.0;  // FAO-56 p. 63: mean of over 2000 stations

// Bounds of Rs/Rso in Eq. 39. FAO-56 gives only the upper; without the lower a dull day would gain
// longwave radiation (ours, as in the later standardised equation, from memory).
constexpr double least_clearness = 0.3;

int day_of_year(std::chrono::sys_days date) {
  const std::chrono::year_month_day day{date};
  const std::chrono::sys_days new_year{day.year() / std::chrono::January / 1};
  return static_cast<int>((date - new_year).count()) + 1;
}

void set_place(ReferenceEt& et, const Site& site, std::chrono::sys_days date) {
  et.pressure_kpa = atmospheric_pressure_kpa(site.elevation_m);
  et.gamma_kpa_c = psychrometric_constant_kpa_c(et.pressure_kpa);
  const SunPath sun =
      sun_path({.latitude_deg = site.latitude_deg, .day_of_year = day_of_year(date)});
  et.ra_mj_m2 = sun.ra_mj_m2;
  et.daylight_h = sun.daylight_h;
  et.rso_mj_m2 =
      clear_sky_radiation_mj_m2({.ra_mj_m2 = et.ra_mj_m2, .elevation_m = site.elevation_m});
}

void set_wind(ReferenceEt& et, const Site& site, const std::optional<double>& wind_m_s) {
  const bool measured = wind_m_s && *wind_m_s >= 0.0;
  const double u2_m_s =
      measured ? wind_at_2m_m_s({.speed_m_s = *wind_m_s, .height_m = site.wind_height_m})
               : assumed_wind_m_s;
  et.u2_m_s = greatest(least_wind_m_s, u2_m_s);
  et.flags.set(DayFlag::wind_estimated, !measured);
}

void set_vapour(ReferenceEt& et, const Site& site, const DailyWeather& weather,
                const TemperatureRange& temperature) {
  et.tmean_c = mean_temperature_c(temperature);
  et.delta_kpa_c = saturation_slope_kpa_c(et.tmean_c);
  et.es_kpa = mean_saturation_vapour_pressure_kpa(temperature);
  const VapourPressure vapour = actual_vapour_pressure(site, weather, temperature);
  et.ea_kpa = vapour.ea_kpa;
  et.flags |= vapour.flags;
  if (!usable_humidity_pct(weather.rh_min_pct)) {
    et.rh_min_pct = least_humidity_pct({.tmax_c = temperature.tmax_c, .ea_kpa = et.ea_kpa});
  }
}

/// Rs/Rso as Eq. 39 takes it; 1 where no sun rises.
double clearness(const ReferenceEt& et) {
  if (et.rso_mj_m2 <= 0.0) return 1.0;
  return held_between(least_clearness, et.rs_mj_m2 / et.rso_mj_m2, 1.0);
}

void set_radiation(ReferenceEt& et, const Site& site, const DailyWeather& weather,
                   const TemperatureRange& temperature) {
  const SolarRadiation solar = solar_radiation(
      site, weather, temperature,
      {.ra_mj_m2 = et.ra_mj_m2, .rso_mj_m2 = et.rso_mj_m2, .daylight_h = et.daylight_h});
  et.rs_mj_m2 = solar.rs_mj_m2;
  et.flags |= solar.flags;
  et.rns_mj_m2 = net_shortwave_mj_m2(et.rs_mj_m2);
  et.rnl_mj_m2 = net_longwave_mj_m2(
      {.temperature = temperature, .ea_kpa = et.ea_kpa, .clearness = clearness(et)});
  et.rn_mj_m2 = et.rns_mj_m2 - et.rnl_mj_m2;  // Eq. 40
}

void set_penman_monteith(ReferenceEt& et) {
  et.penman_monteith_mm = penman_monteith_mm({.tmean_c = et.tmean_c,
                                              .u2_m_s = et.u2_m_s,
                                              .rn_mj_m2 = et.rn_mj_m2,
                                              .g_mj_m2 = 0.0,  // Eq. 42
                                              .delta_kpa_c = et.delta_kpa_c,
                                              .gamma_kpa_c = et.gamma_kpa_c,
                                              .es_kpa = et.es_kpa,
                                              .ea_kpa = et.ea_kpa});
}

/// A day's water loss is not below 0: what Eq. 6 then means is dew, which the balance leaves out
/// (ours; FAO-56 p. 209 says that such days occur).
void set_loss(ReferenceEt& et, double loss_mm) {
  et.et0_mm = greatest(0.0, loss_mm);
  et.flags.set(DayFlag::et0_negative, loss_mm < 0.0);
}

}  // namespace

ReferenceEt reference_et(const Site& site, std::chrono::sys_days date,
                         const DailyWeather& weather) {
  ReferenceEt et;
  set_place(et, site, date);
  set_wind(et, site, weather.wind_m_s);
  if (const auto measured_pct = usable_humidity_pct(weather.rh_min_pct)) {
    et.rh_min_pct = *measured_pct;
  }
  const bool temperatures_known = weather.tmin_c && weather.tmax_c;
  if (temperatures_known) {
    const TemperatureRange temperature{.tmin_c = *weather.tmin_c, .tmax_c = *weather.tmax_c};
    set_vapour(et, site, weather, temperature);
    set_radiation(et, site, weather, temperature);
    set_penman_monteith(et);
  }
  et.flags.set(DayFlag::temperature_missing, !temperatures_known);
  et.flags.set(DayFlag::et0_given, weather.et0_mm.has_value());
  et.flags.set(DayFlag::et0_missing, !weather.et0_mm && !temperatures_known);
  if (weather.et0_mm || temperatures_known) {
    set_loss(et, weather.et0_mm ? *weather.et0_mm : et.penman_monteith_mm);
  }
  return et;
}

}  // namespace gley::model

#pragma once
#include <chrono>

#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"

namespace gley::model {

/// Reference evapotranspiration of one day with every intermediate term, so that it can be
/// explained. Units: vapour pressure kPa, radiation MJ m-2 day-1, temperature degC, wind m/s.
struct ReferenceEt {
  double et0_mm = 0.0;       ///< what the balance uses: given, or Eq. 6, never below 0
  double u2_m_s = 2.0;       ///< at 2 m, at least 0.5 (p. 63)
  double rh_min_pct = 45.0;  ///< measured, or Eq. 63; 45 where no temperature is known
  double tmean_c = 0.0;
  double pressure_kpa = 0.0;
  double gamma_kpa_c = 0.0;
  double delta_kpa_c = 0.0;
  double es_kpa = 0.0;
  double ea_kpa = 0.0;
  double ra_mj_m2 = 0.0;
  double daylight_h = 0.0;
  double rs_mj_m2 = 0.0;
  double rso_mj_m2 = 0.0;
  double rns_mj_m2 = 0.0;
  double rnl_mj_m2 = 0.0;
  double rn_mj_m2 = 0.0;
  double penman_monteith_mm = 0.0;  ///< Eq. 6 before the floor at 0
  DayFlags flags;
};

/// Daily FAO-56 Penman-Monteith reference ET (Allen et al. 1998, Eq. 6) with its own order of
/// fallbacks, each flagged. Needs Tmin and Tmax, or et0_mm; with neither, et0_mm is 0 and the day
/// is flagged et0_missing. With et0_mm the other terms are still computed as far as temperatures
/// are known; without temperatures only those of place, date and wind are. Rs/Rso is held to 0.3..1
/// in Eq. 39. The sources of humidity and radiation: humidity_source.hpp, radiation_source.hpp. The
/// date fixes the sun's path. Tmin above Tmax is the caller's error. Check: Example 18 (p. 72-73),
/// Uccle, 6 July -> 3.88; Example 20 (p. 77), temperatures only -> 4.56.
[[nodiscard]] ReferenceEt reference_et(const Site& site, std::chrono::sys_days date,
                                       const DailyWeather& weather);

}  // namespace gley::model

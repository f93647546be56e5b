#pragma once
#include "model/weather/vapour_pressure.hpp"

/// Radiation at the ground, MJ m-2 day-1. Source: Allen et al. (1998), FAO Irrigation and Drainage
/// Paper 56, chapter 3, equations as named.
namespace gley::model {

/// Water that a day's energy evaporates, mm (Eq. 20). Check: Example 1 (p. 4): 12 MJ -> 4.9.
[[nodiscard]] double evaporation_depth_mm(double energy_mj_m2) noexcept;

struct Sunshine {
  double sun_h = 0.0;       ///< hours of bright sunshine, 0..daylight_h
  double daylight_h = 0.0;  ///< N; 0 in the polar night
  double ra_mj_m2 = 0.0;
};

/// Solar radiation from sunshine hours (Eq. 35, with 0.25 and 0.50).
/// Check: Example 10 (p. 50): n 7.1, N 10.9, Ra 25.1 -> 14.5.
[[nodiscard]] double radiation_from_sunshine_mj_m2(const Sunshine& day) noexcept;

struct TemperatureSky {
  TemperatureRange temperature;
  double ra_mj_m2 = 0.0;
  double krs = 0.16;  ///< 0.16 interior, 0.19 coast
};

/// Solar radiation from the range of temperature (Eq. 50), not yet held to a clear sky's.
/// Known error: for sums over several days, not for single days (p. 60).
/// Check: Example 15 (p. 61): 14.8..26.6 degC, Ra 40.6, krs 0.16 -> 22.3.
[[nodiscard]] double radiation_from_temperature_mj_m2(const TemperatureSky& day) noexcept;

struct ClearSky {
  double ra_mj_m2 = 0.0;
  double elevation_m = 0.0;
};

/// Solar radiation under a clear sky, Rso (Eq. 37; Eq. 36 at sea level).
/// Check: Example 18 (p. 72): Ra 41.09, 100 m -> 30.90.
[[nodiscard]] double clear_sky_radiation_mj_m2(const ClearSky& sky) noexcept;

/// Net shortwave radiation of the reference grass, albedo 0.23 (Eq. 38).
/// Check: Example 12 (p. 53): 14.5 -> 11.1.
[[nodiscard]] double net_shortwave_mj_m2(double rs_mj_m2) noexcept;

/// What a black body sends out in a day (Eq. 39, first factor). Check: Table 2.8 (p. 221): 20
/// -> 36.21.
[[nodiscard]] double black_body_radiation_mj_m2(double temperature_c) noexcept;

struct LongwaveSky {
  TemperatureRange temperature;
  double ea_kpa = 0.0;
  double clearness = 1.0;  ///< Rs/Rso, at most 1; any lower bound is the caller's
};

/// Net longwave radiation that leaves the ground (Eq. 39).
/// Check: Example 11 (p. 52): 3.5; Example 18 (p. 73): 3.71.
[[nodiscard]] double net_longwave_mj_m2(const LongwaveSky& sky) noexcept;

}  // namespace gley::model

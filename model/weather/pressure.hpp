#pragma once

/// Source of both: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, p. 31-32.
namespace gley::model {

/// Mean atmospheric pressure at a height above sea level, kPa (Eq. 7).
/// elevation_m: -400..6000, our limit: beyond it the standard atmosphere was not looked at.
/// Check: Example 2 (p. 32): 1800 m -> 81.8.
[[nodiscard]] double atmospheric_pressure_kpa(double elevation_m) noexcept;

/// Psychrometric constant, kPa/degC (Eq. 8).
/// Check: Example 2 (p. 32): 81.8 kPa -> 0.054.
[[nodiscard]] double psychrometric_constant_kpa_c(double pressure_kpa) noexcept;

}  // namespace gley::model

#pragma once

namespace gley::model {

/// Least wind in Eq. 6, m/s: still air carries vapour by buoyancy (FAO-56 p. 63). In Eq. 72 too.
inline constexpr double least_wind_m_s = 0.5;

/// Wind where it was measured, over short grass.
struct MeasuredWind {
  double speed_m_s = 0.0;
  double height_m = 2.0;  ///< above ground; above 0.1
};

/// Wind speed at 2 m, m/s. Wind measured at 2 m is returned as it is: there the formula
/// gives 1.0002 of it, from its rounded constants.
/// Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, Eq. 47.
/// Check:  its Example 14 (p. 56): 3.2 m/s at 10 m -> 2.4.
[[nodiscard]] double wind_at_2m_m_s(const MeasuredWind& wind) noexcept;

/// The factor from a height to 2 m (Eq. 47). Check: Table 2.9 (p. 222): 3.0 m -> 0.921.
[[nodiscard]] double wind_factor_to_2m(double height_m) noexcept;

}  // namespace gley::model

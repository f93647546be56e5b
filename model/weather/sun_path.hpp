#pragma once

namespace gley::model {

struct SunDay {
  double latitude_deg = 0.0;  ///< north positive
  int day_of_year = 1;        ///< 1..366
};

/// The sun over a place on a day.
struct SunPath {
  double latitude_rad = 0.0;
  double inverse_distance = 1.0;  ///< relative distance of earth and sun, dr (Eq. 23)
  double declination_rad = 0.0;   ///< Eq. 24
  double sunset_angle_rad = 0.0;  ///< Eq. 25; 0 in the polar night, pi in the polar day
  double ra_mj_m2 = 0.0;          ///< radiation on top of the atmosphere, Ra (Eq. 21)
  double daylight_h = 0.0;        ///< longest possible sunshine, N (Eq. 34)
};

/// Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56, Eq. 21 to 25 and 34. It gives
/// no rule for the polar circles; there -tan(latitude) tan(declination) is held to -1..1 (ours).
/// Check:  its Examples 8 and 9 (p. 47, 49): 3 September, 20 deg S -> Ra 32.2, N 11.7.
[[nodiscard]] SunPath sun_path(const SunDay& day) noexcept;

}  // namespace gley::model

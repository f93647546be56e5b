#include "model/weather/sun_path.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {
namespace {

constexpr double solar_constant_mj_m2_min = 0.0820;

}  // namespace

SunPath sun_path(const SunDay& day) noexcept {
  SunPath sun;
  const double year_angle_rad = 2.0 * pi * day.day_of_year / 365.0;
  sun.latitude_rad = pi / 180.0 * day.latitude_deg;             // Eq. 22
  sun.inverse_distance = 1.0 + 0.033 * cosine(year_angle_rad);  // Eq. 23
  sun.declination_rad = 0.409 * sine(year_angle_rad - 1.39);    // Eq. 24
  sun.sunset_angle_rad = arc_cosine(held_between(               // Eq. 25
      -1.0, -tangent(sun.latitude_rad) * tangent(sun.declination_rad), 1.0));
  const double sine_part = sine(sun.latitude_rad) * sine(sun.declination_rad);
  const double cosine_part = cosine(sun.latitude_rad) * cosine(sun.declination_rad);
  const double ra = 24.0 * 60.0 / pi * solar_constant_mj_m2_min * sun.inverse_distance *  // Eq. 21
                    (sun.sunset_angle_rad * sine_part + cosine_part * sine(sun.sunset_angle_rad));
  sun.ra_mj_m2 = greatest(0.0, ra);  // rounding, where the sun only just stays down
  sun.daylight_h = 24.0 / pi * sun.sunset_angle_rad;  // Eq. 34
  return sun;
}

}  // namespace gley::model

#include "model/weather/wind.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

double wind_factor_to_2m(double height_m) noexcept {
  return 4.87 / natural_logarithm(67.8 * height_m - 5.42);
}

double wind_at_2m_m_s(const MeasuredWind& wind) noexcept {
  if (wind.height_m == 2.0) return wind.speed_m_s;
  return wind.speed_m_s * wind_factor_to_2m(wind.height_m);
}

}  // namespace gley::model

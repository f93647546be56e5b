#include "model/weather/pressure.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

double atmospheric_pressure_kpa(double elevation_m) noexcept {
  return 101.3 * power((293.0 - 0.0065 * elevation_m) / 293.0, 5.26);
}

double psychrometric_constant_kpa_c(double pressure_kpa) noexcept {
  return 0.665e-3 * pressure_kpa;
}

}  // namespace gley::model

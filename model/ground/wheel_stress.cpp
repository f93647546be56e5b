#include "model/ground/wheel_stress.hpp"

#include <cmath>

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {
constexpr double kpa_per_bar = 100.0;
}

WheelContact contact_of(const WheelLoad& wheel) noexcept {
  const double pressure_kpa = wheel.pressure_bar * kpa_per_bar;
  const double area_m2 = wheel.load_t * gravity_m_s2 / pressure_kpa;
  return {.pressure_kpa = pressure_kpa, .radius_m = std::sqrt(area_m2 / pi)};
}

double vertical_stress_kpa(const WheelContact& contact, double depth_m,
                           int concentration) noexcept {
  const double slant_m = std::sqrt(depth_m * depth_m + contact.radius_m * contact.radius_m);
  const double cosine_of_edge = depth_m / slant_m;
  double relieved = 1.0;
  for (int i = 0; i < concentration; ++i) relieved *= cosine_of_edge;
  return contact.pressure_kpa * (1.0 - relieved);
}

}  // namespace gley::model

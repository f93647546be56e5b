#include "model/spreading/leaching.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

/// Water the depth holds over the water that passes it.
double pore_volumes_inverse(const Percolation& water) {
  return water.depth_mm * water.field_capacity / water.drainage_mm;
}

}  // namespace

double share_leached_from_surface(const Percolation& water) noexcept {
  if (water.drainage_mm <= 0.0) return 0.0;
  return exponential(-pore_volumes_inverse(water));
}

double share_leached_from_even_start(const Percolation& water) noexcept {
  if (water.drainage_mm <= 0.0) return 0.0;
  const double x = pore_volumes_inverse(water);
  return (1.0 - exponential(-x)) / x;
}

}  // namespace gley::model

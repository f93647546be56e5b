#include "model/spreading/leaching.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

double share_leached_from_surface(const Percolation& water) noexcept {
  if (water.drainage_mm <= 0.0) return 0.0;
  return exponential(-(water.depth_mm * water.field_capacity / water.drainage_mm));
}

}  // namespace gley::model

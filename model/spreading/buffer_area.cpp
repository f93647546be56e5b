#include "model/spreading/buffer_area.hpp"

#include <cmath>

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {
constexpr double m2_a_ha = 10000.0;
}

std::optional<double> strip_ha(const Buffer& buffer, const std::optional<double>& edge_m) {
  if (!edge_m) return {};
  return greatest(0.0, buffer.needed_m - buffer.distance_m) * *edge_m / m2_a_ha;
}

double piece_ha(const Buffer& buffer) {
  const double r = buffer.needed_m;
  const double d = buffer.distance_m;
  if (d >= r) return 0.0;
  return (r * r * arc_cosine(d / r) - d * std::sqrt(r * r - d * d)) / m2_a_ha;
}

}  // namespace gley::model

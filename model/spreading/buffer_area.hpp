#pragma once
#include <optional>

namespace gley::model {

/// How far the field's edge lies from what is to be kept clear of, and how far it has to.
struct Buffer {
  double distance_m = 0.0;
  double needed_m = 0.0;
};

/// Area of the strip along a straight edge, ha; absent where the edge's length is not known.
[[nodiscard]] std::optional<double> strip_ha(const Buffer& buffer,
                                             const std::optional<double>& edge_m);

/// Area of a straight-edged field within reach of a point outside it, ha: a segment of a circle.
/// Check: at the edge itself half a circle, 50 m: 0.3927.
[[nodiscard]] double piece_ha(const Buffer& buffer);

}  // namespace gley::model

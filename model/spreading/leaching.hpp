#pragma once

namespace gley::model {

/// Water draining through a depth of soil.
struct Percolation {
  double drainage_mm = 0.0;
  double depth_mm = 0.0;
  double field_capacity = 0.0;  ///< mean over the depth, m3/m3
};

/// Share of a dressing on the surface that goes below a depth, exp(-h FC/P).
/// Source: Burns (1975), J. Agric. Sci. 85:443-454, in the form of Scotter, White and Dyson (1993),
/// J. Soil Sci. 44:25. Misses bypass flow in cracked and drained clay.
/// Check: P 10 cm, FC 0.30, h 30 cm: 0.4066.
[[nodiscard]] double share_leached_from_surface(const Percolation& water) noexcept;

}  // namespace gley::model

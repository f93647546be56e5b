#pragma once
#include "model/soil/profile.hpp"

namespace gley::model {

/// Soil suction, kPa, from water content: 10 kPa at field capacity, rising as a power of the
/// dryness below it, falling on a straight line to 0 at saturation.
/// Form: Saxton and Rawls (2006) exponent, anchored at field capacity (our choice, so that a field
/// capacity set too low cannot make a full field look dry). An index, not a measurement.
/// Check: sandy loam class, 300 mm, deficit 10 mm: 20.8 kPa; surplus 5 mm: 9.1 kPa.
[[nodiscard]] double suction_kpa(const Horizon& soil, double theta);

}  // namespace gley::model

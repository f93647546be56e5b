#pragma once
#include "model/numeric/lane.hpp"

/// Evaporation from bare soil in the dual crop coefficient method, for a lane type V (see
/// model/numeric/lane.hpp). Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56,
/// chapter 7, equations as named.
namespace gley::model {

template <class V>
struct BareGround {
  V exposed;          ///< fraction of the ground not under vegetation, 1 - fc, 0.01..1
  V wetted_fraction;  ///< fraction of the ground wetted by rain or irrigation, fw, 0..1
};

/// Fraction of the ground that is both exposed and wetted, few (Eq. 75).
/// Check: Example 32 (p. 150): fc 0.53, fw 1 -> 0.47; Example 33 (p. 151): fw 0.3 -> 0.3.
template <class V>
[[nodiscard]] constexpr V exposed_wetted_fraction_few(const BareGround<V>& ground) noexcept {
  return least(ground.exposed, ground.wetted_fraction);
}

struct DrippedGround {
  double cover;            ///< fraction of the ground under vegetation, fc, 0..0.99
  double wetted_fraction;  ///< fw of the lines on open ground
};

/// Wetted fraction to use for drip lines under the crop: fw (1 - 2/3 fc) (p. 149).
/// Check: Example 34 (p. 151): fc 0.53, fw 0.3 -> 0.19.
[[nodiscard]] constexpr double shaded_drip_wetted_fraction(const DrippedGround& ground) noexcept {
  return ground.wetted_fraction * (1.0 - 2.0 / 3.0 * ground.cover);
}

template <class V>
struct EvaporationLayer {
  V depletion_mm;                ///< De at the start of the day, after early water
  double readily_evaporable_mm;  ///< REW, 0..TEW
  double totally_evaporable_mm;  ///< TEW, above 0
};

/// Evaporation reduction coefficient Kr, 0..1 (Eq. 74).
/// Check: Example 31 (p. 146): TEW 20, REW 9; De 9.45 -> 0.96, 16.57 -> 0.31.
template <class V>
[[nodiscard]] constexpr V evaporation_reduction_kr(const EvaporationLayer<V>& layer) noexcept {
  const V left_mm = greatest(V(0.0), layer.totally_evaporable_mm - layer.depletion_mm);
  const double per_span = 1.0 / (layer.totally_evaporable_mm - layer.readily_evaporable_mm);
  return select(layer.depletion_mm > layer.readily_evaporable_mm, left_mm * per_span, V(1.0));
}

template <class V>
struct EvaporationLimits {
  V kr;      ///< evaporation reduction, Eq. 74
  V kc_max;  ///< Eq. 72, at least Kcb + 0.05
  V kcb;     ///< basal coefficient
  V few;     ///< exposed and wetted fraction, Eq. 75
};

/// Soil evaporation coefficient Ke (Eq. 71): limited by energy and by the exposed wetted ground.
/// Check: Example 32 (p. 150): 0.40; Example 33 (p. 151): 0.39.
template <class V>
[[nodiscard]] constexpr V evaporation_coefficient_ke(const EvaporationLimits<V>& limits) noexcept {
  return least(limits.kr * (limits.kc_max - limits.kcb), limits.few * limits.kc_max);
}

}  // namespace gley::model

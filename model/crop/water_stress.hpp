#pragma once
#include "model/numeric/lane.hpp"

/// Water in reach of the roots and the stress when it runs short, for a lane type V (see
/// model/numeric/lane.hpp). Source: Allen et al. (1998), FAO Irrigation and Drainage Paper 56,
/// chapter 8, equations as named.
namespace gley::model {

struct RootedSoil {
  double field_capacity;  ///< volumetric, m3/m3
  double wilting_point;   ///< volumetric, m3/m3
  double root_depth_mm;
};

/// Total available water in the root zone, or in a layer of it, TAW, mm (Eq. 82).
/// Check: Example 36 (p. 166): silt 0.32, 0.15, roots 800 mm -> 136.
[[nodiscard]] constexpr double total_available_water_mm(const RootedSoil& soil) noexcept {
  return (soil.field_capacity - soil.wilting_point) * soil.root_depth_mm;
}

template <class V>
struct DepletionFraction {
  V table_p;            ///< p of FAO-56 Table 22, for 5 mm of ETc a day
  V unstressed_etc_mm;  ///< ETc of the same day with Ks = 1
};

/// Share p of TAW that can be taken before stress, adjusted for the day's demand and held to
/// 0.1..0.8 (p. 162, note to Table 22).
/// Check: none printed; by hand: p 0.55, ETc 3 -> 0.63.
template <class V>
[[nodiscard]] constexpr V adjusted_depletion_fraction(
    const DepletionFraction<V>& fraction) noexcept {
  const V p = fraction.table_p + V(0.04) * (V(5.0) - fraction.unstressed_etc_mm);
  return held_between(V(0.1), p, V(0.8));
}

template <class V>
struct RootZone {
  V depletion_mm;        ///< Dr at the start of the day, after early water
  V total_available_mm;  ///< TAW, above 0
  V depletion_fraction;  ///< p, below 1
};

/// Readily available water, RAW, mm (Eq. 83).
/// Check: Example 36 (p. 166): TAW 136, p 0.4 -> 54.
template <class V>
[[nodiscard]] constexpr V readily_available_water_mm(const RootZone<V>& zone) noexcept {
  return zone.depletion_fraction * zone.total_available_mm;
}

/// Water stress coefficient Ks, 0..1 (Eq. 84).
/// Check: Example 37 (p. 168): TAW 160, p 0.4; Dr 67 -> 0.97, 100.8 -> 0.62.
template <class V>
[[nodiscard]] constexpr V stress_coefficient_ks(const RootZone<V>& zone) noexcept {
  const V left_mm = greatest(V(0.0), zone.total_available_mm - zone.depletion_mm);
  const V stressed_span_mm = (V(1.0) - zone.depletion_fraction) * zone.total_available_mm;
  return least(V(1.0), left_mm / stressed_span_mm);
}

}  // namespace gley::model

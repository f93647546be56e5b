#pragma once
#include "model/numeric/lane.hpp"

namespace gley::model {

/// Curve numbers of a ground: dry, middle and wet.
struct CurveNumbers {
  double dry = 0.0;
  double middle = 0.0;
  double wet = 0.0;
};

/// The three numbers from the table's middle one, for a slope.
/// Source: Sharpley and Williams (1990) as in Neitsch et al. (2011), TWRI TR-406 (both from
/// memory). The tables hold for a slope of 5 %. Check: 80 gives 63.0 and 91.5 (NEH 630 Table 10-1:
/// 63 and 91); 74 on 12 % gives 76.9.
[[nodiscard]] CurveNumbers curve_numbers(double middle, double slope_pct);

/// Storage S of a curve number as the tables mean it, with an initial abstraction of 0.2 S, mm.
/// Source: NEH 630 ch. 10, S = 25400/CN - 254.
[[nodiscard]] double tabled_storage_mm(double curve_number);

/// Storage for an initial abstraction of 0.05 S, mm: maritime rain comes in small falls, of which
/// 0.2 S would let none run off. Source: Hawkins et al. (2002), S05 = 0.8187 S^1.15 in mm.
[[nodiscard]] double runoff_storage_mm(double curve_number);

/// How the storage of a curve number is meant.
struct InitialAbstraction {
  double of_storage = 0.05;
  double rest = 0.95;  ///< 1 less the other
};
inline constexpr InitialAbstraction tabled_abstraction{.of_storage = 0.2, .rest = 0.8};

/// Rain that runs off at once, mm/day: Q = (P - Ia)^2 / (P - Ia + S).
/// An event method from small catchments: under 1 mm read it as 'some risk', not as an amount.
/// Check: curve number 80, 20 mm: 2.05 mm with 0.05 S, 0.75 mm with 0.2 S.
template <class V>
[[nodiscard]] V storm_runoff_mm(const V& rain_mm, const V& storage_mm,
                                const InitialAbstraction& abstraction = {}) {
  const V above = rain_mm - abstraction.of_storage * storage_mm;
  return select(0.0 < above, above * above / (rain_mm + abstraction.rest * storage_mm), V(0.0));
}

}  // namespace gley::model

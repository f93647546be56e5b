#pragma once
#include <vector>

namespace gley::model {

/// Where the members of a forecast lie: one in ten below `low`, half below `middle`, one in ten
/// above `high`.
struct Spread {
  double low = 0.0;
  double middle = 0.0;
  double high = 0.0;

  friend bool operator==(const Spread&, const Spread&) = default;
};

/// Quantiles 0.1, 0.5 and 0.9, between two values in proportion. At least one value, in any order.
/// Source: Hyndman and Fan (1996), The American Statistician 50, definition 7.
/// Check: 0, 1, .., 10 -> 1, 5, 9; of 1 and 2 -> 1.1, 1.5, 1.9.
[[nodiscard]] Spread spread_of(std::vector<double> values);

}  // namespace gley::model

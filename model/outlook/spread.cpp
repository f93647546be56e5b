#include "model/outlook/spread.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace gley::model {

namespace {

double quantile(const std::vector<double>& sorted, double share) {
  const double place = share * static_cast<double>(sorted.size() - 1);
  const double below = std::floor(place);
  const auto index = static_cast<std::size_t>(below);
  if (index + 1 >= sorted.size()) return sorted.back();
  return sorted[index] + (place - below) * (sorted[index + 1] - sorted[index]);
}

}  // namespace

Spread spread_of(std::vector<double> values) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {.low = nan, .middle = nan, .high = nan};
  std::sort(values.begin(), values.end());
  return {
      .low = quantile(values, 0.1), .middle = quantile(values, 0.5), .high = quantile(values, 0.9)};
}

}  // namespace gley::model

#include "daemon/board/snapshot/histogram.hpp"

#include <algorithm>
#include <utility>

namespace gley::daemon {

Histogram::Histogram(std::vector<double> bounds_s)
    : bounds_s_(std::move(bounds_s)), counts_(bounds_s_.size() + 1) {}

void Histogram::add(double seconds) {
  const double value = seconds > 0.0 ? seconds : 0.0;
  const auto bound = std::lower_bound(bounds_s_.begin(), bounds_s_.end(), value);
  ++counts_[static_cast<std::size_t>(bound - bounds_s_.begin())];
  sum_s_ += value;
}

std::uint64_t Histogram::up_to(std::size_t bound) const {
  std::uint64_t sum = 0;
  for (std::size_t i = 0; i <= bound && i < counts_.size(); ++i) sum += counts_[i];
  return sum;
}

std::vector<double> work_bounds_s() {
  return {0.0001, 0.0003, 0.001, 0.003, 0.01, 0.03, 0.1, 0.3, 1.0, 3.0, 10.0};
}

std::vector<double> delay_bounds_s() {
  return {1.0, 10.0, 60.0, 600.0, 3600.0, 21600.0, 86400.0, 604800.0};
}

}  // namespace gley::daemon

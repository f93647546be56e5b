#pragma once
#include <cstddef>
#include <cstdint>
#include <vector>

namespace gley::daemon {

/// How long something took, counted by upper bounds. One thread at a time.
class Histogram {
 public:
  /// bounds_s: rising.
  explicit Histogram(std::vector<double> bounds_s);

  /// Less than nothing, as of a clock that runs ahead, counts as nothing.
  void add(double seconds);

  [[nodiscard]] const std::vector<double>& bounds_s() const { return bounds_s_; }
  /// How many took at most the bound of this index; the last index, past the bounds, is all.
  [[nodiscard]] std::uint64_t up_to(std::size_t bound) const;
  [[nodiscard]] double sum_s() const { return sum_s_; }

 private:
  std::vector<double> bounds_s_;
  std::vector<std::uint64_t> counts_;  ///< of each bound alone, then of what is over the last
  double sum_s_ = 0.0;
};

/// Bounds for work of this machine, 0.1 ms to 10 s.
[[nodiscard]] std::vector<double> work_bounds_s();

/// Bounds for how late a reading comes, a second to a week.
[[nodiscard]] std::vector<double> delay_bounds_s();

}  // namespace gley::daemon

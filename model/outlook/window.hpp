#pragma once
#include <cstddef>
#include <span>
#include <vector>

namespace gley::model {

/// Days in a row on each of which something holds with at least the chance asked for.
struct DayWindow {
  std::size_t first = 0;  ///< day of the outlook, 0 is today
  std::size_t end = 0;    ///< the day after its last
  double chance = 0.0;    ///< of the least likely of its days

  friend bool operator==(const DayWindow&, const DayWindow&) = default;
};

/// All windows, in order, each as long as it can be. `least_chance`: 0..1.
[[nodiscard]] std::vector<DayWindow> windows(std::span<const double> chance_by_day,
                                             double least_chance);

}  // namespace gley::model

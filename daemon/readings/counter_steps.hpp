#pragma once
#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// What a counter's day amounts to.
struct Counted {
  std::optional<double> amount;  ///< empty: there is nothing to count from
  int strays = 0;                ///< counts left out: the next one went on from the one before
  int jumps = 0;                 ///< rises left out: more than can have come in the time
};

/// By source and quantity: the value after a counter's highest, at which it is at 0 again.
using RollOvers = std::map<std::pair<std::string, Quantity>, double>;

struct CounterRules {
  bool everything_counts = false;  ///< a person said that the rises are right
  std::optional<double> rolls_over_at = {};
};

/// Counts of one source in order of time, from the last one before them if there is one. A count
/// that fell has rolled over if it is known where and that is a rise by 30 mm at most, and 30 mm
/// more for each day between (our choice: a reset far from the top would be a larger one); else it
/// has restarted from 0. A rise that cannot be is left out and counting goes on from there; but
/// where the count after returns to where it was, the one between is left out instead.
[[nodiscard]] Counted count_up(const std::vector<const Reading*>& counts, const Reading* before,
                               const CounterRules& rules);

}  // namespace gley::daemon

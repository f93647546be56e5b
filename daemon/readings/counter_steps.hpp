#pragma once
#include <optional>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// What a counter's day amounts to.
struct Counted {
  std::optional<double> amount;  ///< empty: there is nothing to count from
  int strays = 0;                ///< counts left out: the next one went on from the one before
  int jumps = 0;                 ///< rises left out: more than can have come in the time
};

/// Counts of one source in order of time, from the last one before them if there is one. A count
/// that fell has restarted from 0. A rise that cannot be is left out and counting goes on from
/// there; but where the count after returns to where it was, the one between is left out instead.
/// everything_counts: a person said that the rises are right.
[[nodiscard]] Counted count_up(const std::vector<const Reading*>& counts, const Reading* before,
                               bool everything_counts);

}  // namespace gley::daemon

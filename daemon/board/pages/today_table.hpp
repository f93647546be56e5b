#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/local_time.hpp"

namespace gley::daemon {

/// Which fields take which machine, and what may be spread where. Machines of a field with one
/// answer and one time share a row, and so do fields on which the same machines have it.
struct TodayRow {
  std::vector<std::string> fields;  ///< names, in the farm's order
  std::vector<std::string> names;   ///< of machines or materials
  std::string now;                  ///< verdict or advice
  std::string when;                 ///< until when, or when it opens and how likely
};

/// In the order of use: what can be done now, what lasts longest first; what opens next, the
/// soonest first; what to leave; what is not known. Machines come before materials.
[[nodiscard]] std::vector<TodayRow> today_rows(const BoardSnapshot& board, const FarmClock& clock);

/// The same as lines of exactly one table, each no wider than `width`, 60 at least.
[[nodiscard]] std::vector<std::string> today_table(const BoardSnapshot& board,
                                                   const FarmClock& clock, std::size_t width);

}  // namespace gley::daemon

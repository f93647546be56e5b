#pragma once
#include <set>
#include <string>
#include <vector>

#include "daemon/alerts/alert.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"

namespace gley::daemon {

/// What was doubted at a station today or in the two days before, and since when.
[[nodiscard]] std::vector<DoubtView> doubts_of_station(const FarmState& state,
                                                       const std::string& station);

/// The stations for which an event of quality holds.
[[nodiscard]] std::set<std::string> stations_doubted(AlertEvent event, const FarmState& state,
                                                     Instant now);

/// Says in the log what a station's doubts are that were not shown before, with what to do.
void log_new_doubts(const BoardSnapshot& before, const BoardSnapshot& now);

}  // namespace gley::daemon

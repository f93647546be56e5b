#pragma once
#include <vector>

#include "daemon/alerts/alert.hpp"
#include "daemon/board/snapshot.hpp"
#include "daemon/engine/farm_state.hpp"

namespace gley::daemon {

/// The farm as screens and topics show it. `service` and times are the caller's.
[[nodiscard]] BoardSnapshot board_of(const FarmState& state, const std::vector<Alert>& alerts,
                                     Instant now);

/// Stations from which nothing has come for longer than the farm allows.
[[nodiscard]] std::set<std::string> silent_stations(const FarmState& state, Instant now);

}  // namespace gley::daemon

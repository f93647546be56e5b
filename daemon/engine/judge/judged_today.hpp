#pragma once
#include <optional>
#include <set>
#include <string>

#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/judge/judgement.hpp"

namespace gley::daemon {

/// A field's day so far, with what its ground remembers of the time before: yesterday's frost, the
/// rain of the last 24 hours. Only for a field that has a day so far.
[[nodiscard]] JudgedDay judged_today(const FarmState& state, std::size_t field);

/// A field's answers rest on the stations it trusts; with one of them heard, they stand.
[[nodiscard]] std::optional<model::Silence> silence_of(const FarmState& state,
                                                       const std::vector<std::string>& stations,
                                                       Instant now);

/// Stations from which nothing has come for longer than the farm allows.
[[nodiscard]] std::set<std::string> silent_stations(const FarmState& state, Instant now);

}  // namespace gley::daemon

#pragma once
#include <vector>

#include "daemon/alerts/alert.hpp"
#include "daemon/board/snapshot.hpp"
#include "daemon/engine/farm_state.hpp"
#include "daemon/engine/outlook_job.hpp"
#include "model/ground/ground_verdict.hpp"

namespace gley::daemon {

/// The farm as screens and topics show it. `service` and times are the caller's.
/// outlook: null without a forecast under 24 h old.
[[nodiscard]] BoardSnapshot board_of(const FarmState& state, const std::vector<Alert>& alerts,
                                     Instant now, const FarmOutlook* outlook);

/// The same without its fields.
[[nodiscard]] BoardSnapshot board_without_fields(const FarmState& state,
                                                 const std::vector<Alert>& alerts, Instant now);

/// One field of it.
[[nodiscard]] FieldView field_view(const FarmState& state, std::size_t index, Instant now,
                                   const FarmOutlook* outlook);

/// Stations from which nothing has come for longer than the farm allows.
[[nodiscard]] std::set<std::string> silent_stations(const FarmState& state, Instant now);

/// What of the time before a field's day so far its ground remembers: yesterday's frost, the rain
/// of the last 24 hours.
[[nodiscard]] model::GroundBefore ground_before(const FarmState& state, std::size_t field);

/// A field's answers rest on the stations it trusts; with one of them heard, they stand.
[[nodiscard]] std::optional<model::Silence> silence_of(const FarmState& state,
                                                       const std::vector<std::string>& stations,
                                                       Instant now);

}  // namespace gley::daemon

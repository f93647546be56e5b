#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"

/// The state as JSON, the same on MQTT and under /api/: times in UTC (RFC 3339), units in the keys,
/// water to 0.1 mm, water content to 0.001, a margin to 0.01, and null for what is not known.
namespace gley::daemon {

[[nodiscard]] std::string board_json(const BoardSnapshot& board);
/// Whether two views of a field are the same in that.
[[nodiscard]] bool same_on_board(const FieldView& a, const FieldView& b);

[[nodiscard]] std::string water_json(const FieldView& field, Instant time);
[[nodiscard]] std::string machine_json(const MachineView& machine, Instant time);
[[nodiscard]] std::string spreading_json(const SpreadingView& spreading, Instant time);
[[nodiscard]] std::string alert_json(const AlertView& alert);

/// All alerts that stand now, then those that ended, the latest first; each with `ended`.
[[nodiscard]] std::string alerts_json(const BoardSnapshot& board);

/// One field with all of the above that belongs to it: its machines and materials by id.
[[nodiscard]] std::string field_json(const FieldView& field, Instant time);

/// What an event client is told: that there is something new, not what.
[[nodiscard]] std::string event_json(const BoardSnapshot& board);

/// What stands under every piece of advice to spread.
inline constexpr std::string_view spreading_caution = "Local codes and product labels decide.";

}  // namespace gley::daemon

#pragma once
#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/engine/fields/farm_state.hpp"

namespace gley::daemon {

/// What would make each machine's verdict on a field better: less air in its tyres, less load, or
/// days without rain. Empty for a field of which nothing is known.
[[nodiscard]] std::vector<MachineChange> what_would_change(const FarmState& state,
                                                           std::size_t field);

}  // namespace gley::daemon

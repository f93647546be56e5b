#pragma once
#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/engine/fields/farm_state.hpp"

namespace gley::daemon {

/// A field's ended days by harvest year, latest first.
[[nodiscard]] SeasonsView seasons_of(const FarmState& state, std::size_t field);

}  // namespace gley::daemon

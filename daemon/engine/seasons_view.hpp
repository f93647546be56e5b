#pragma once
#include "daemon/board/field_record.hpp"
#include "daemon/engine/farm_state.hpp"

namespace gley::daemon {

/// A field's ended days by harvest year, latest first.
[[nodiscard]] SeasonsView seasons_of(const FarmState& state, std::size_t field);

}  // namespace gley::daemon

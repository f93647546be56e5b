#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// The forecast in use, and how forecasts did, for `/api/forecast`; null before the first.
[[nodiscard]] std::string forecast_json(const BoardSnapshot& board);

}  // namespace gley::daemon

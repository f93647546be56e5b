#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// The alerts that stand, and those that ended: begun, seen by whom, ended, and what to do.
[[nodiscard]] std::string alerts_page(const BoardSnapshot& board);

}  // namespace gley::daemon

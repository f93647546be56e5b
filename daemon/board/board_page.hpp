#pragma once
#include <string>

#include "daemon/board/snapshot.hpp"

namespace gley::daemon {

/// All fields at a glance, for the yard display and the phone: whole without script.
[[nodiscard]] std::string board_page(const BoardSnapshot& board);

}  // namespace gley::daemon

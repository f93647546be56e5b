#pragma once
#include <cstddef>
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// The board for a terminal: alerts, troubles, one table. No line is longer than `width` columns
/// (at least 60), and nothing a name holds can move the cursor or reorder the line.
[[nodiscard]] std::string board_text(const BoardSnapshot& board, std::size_t width = 80);

}  // namespace gley::daemon

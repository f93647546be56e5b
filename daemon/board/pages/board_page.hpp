#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// How the board's fields stand: what can be done now first, or from A to Z as at the field gate.
enum class BoardOrder { by_work, by_name };

/// All fields at a glance, for the yard display and the phone: whole without script.
[[nodiscard]] std::string board_page(const BoardSnapshot& board,
                                     BoardOrder order = BoardOrder::by_work);

}  // namespace gley::daemon

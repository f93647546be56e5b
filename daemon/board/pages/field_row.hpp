#pragma once
#include "daemon/board/pages/html.hpp"
#include "daemon/board/words/board_words.hpp"

namespace gley::daemon {

/// One field on the board: its soil, what is in it, what its sign machine may do and until when,
/// and the sign of every machine and material.
[[nodiscard]] Html field_row(const FieldView& field, const BoardSnapshot& board,
                             const Moment& moment);

}  // namespace gley::daemon

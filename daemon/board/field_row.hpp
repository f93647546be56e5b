#pragma once
#include "daemon/board/board_words.hpp"
#include "daemon/board/html.hpp"

namespace gley::daemon {

/// One field on the board: its soil, what is in it, what its sign machine may do and until when,
/// and the sign of every machine and material.
[[nodiscard]] Html field_row(const FieldView& field, const BoardSnapshot& board,
                             const Moment& moment);

}  // namespace gley::daemon

#pragma once
#include <string>

#include "daemon/board/snapshot.hpp"

namespace gley::daemon {

/// One field with its numbers, layers, machines and materials. `field` is one of the board's.
[[nodiscard]] std::string field_page(const FieldView& field, const BoardSnapshot& board);

}  // namespace gley::daemon

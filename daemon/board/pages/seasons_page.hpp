#pragma once
#include <string>

#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// A field's harvest years side by side.
[[nodiscard]] std::string seasons_page(const FieldView& field, const BoardSnapshot& board,
                                       const SeasonsView& seasons);

}  // namespace gley::daemon

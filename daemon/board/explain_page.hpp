#pragma once
#include <string>
#include <tl/expected.hpp>

#include "daemon/board/snapshot.hpp"

namespace gley::daemon {

/// A field's day with every number's equation and source. explained: the explanation as JSON, or
/// why there is none.
[[nodiscard]] std::string explain_page(const FieldView& field, const BoardSnapshot& board,
                                       const tl::expected<std::string, std::string>& explained);

}  // namespace gley::daemon

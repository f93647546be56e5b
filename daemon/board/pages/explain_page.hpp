#pragma once
#include <string>
#include <tl/expected.hpp>

#include "daemon/board/snapshot/explanation.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// A field's day with every number's equation and source. explained: or why it is not.
[[nodiscard]] std::string explain_page(const FieldView& field, const BoardSnapshot& board,
                                       const tl::expected<Explanation, std::string>& explained);

}  // namespace gley::daemon

#pragma once
#include <string>

#include "daemon/board/snapshot/explanation.hpp"

namespace gley::daemon {

/// For a terminal of 80 columns: each line's name, value and unit, and under it its equation,
/// source and note. Numbers read back to the same double.
[[nodiscard]] std::string explanation_text(const Explanation& explanation);

}  // namespace gley::daemon

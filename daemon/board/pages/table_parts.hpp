#pragma once
#include <string>
#include <vector>

#include "daemon/board/pages/html.hpp"

/// Tables as pages write them.
namespace gley::daemon {

[[nodiscard]] Html table_head(const std::vector<std::string>& names);
[[nodiscard]] Html table_cell(const std::string& text);

/// A table that may be wider than the page, in a box that scrolls by keyboard too. label: what a
/// reader by voice calls it.
[[nodiscard]] Html scroll_box(const std::string& label, const Html& table);

}  // namespace gley::daemon

#pragma once
#include <string_view>

namespace gley::daemon {

/// The text of a file of daemon/board/assets/, by name ("board.css"); empty if there is none.
/// The build writes the definition from the files themselves.
[[nodiscard]] std::string_view embedded_asset(std::string_view name);

}  // namespace gley::daemon

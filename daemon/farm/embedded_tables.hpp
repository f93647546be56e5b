#pragma once
#include <string_view>

namespace gley::daemon {

/// The text of a reference table of config/, by file name ("crops.toml"); empty if there is none.
/// The build writes the definition from the files themselves.
[[nodiscard]] std::string_view embedded_table(std::string_view name);

}  // namespace gley::daemon

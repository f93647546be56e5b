#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace gley::daemon {

/// What is most likely wrong with a line at which a file stops being TOML, and how it is written
/// right. The parser's own words presume that one knows TOML. Nothing if the line shows no slip.
[[nodiscard]] std::optional<std::string> slip_in(std::string_view line);

}  // namespace gley::daemon

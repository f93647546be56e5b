#pragma once
#include <optional>
#include <string>
#include <string_view>

namespace gley::daemon {

/// The shortest text that reads back to the same double, the same under every locale.
[[nodiscard]] std::string number_text(double value);

/// A finite number and nothing else; no thousands mark, no comma for the point.
[[nodiscard]] std::optional<double> number_from(std::string_view text);

}  // namespace gley::daemon

#pragma once
#include <string_view>

namespace gley::daemon {

/// The text without blanks at its ends.
[[nodiscard]] inline std::string_view trimmed(std::string_view text,
                                              std::string_view blanks = " \t\r\n") {
  const auto first = text.find_first_not_of(blanks);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

}  // namespace gley::daemon

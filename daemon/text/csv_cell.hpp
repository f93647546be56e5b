#pragma once
#include <string>

namespace gley::daemon {

/// A text as one cell of RFC 4180: quoted where it holds a comma, a quote or a line's end.
[[nodiscard]] inline std::string csv_cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string cell = "\"";
  for (const char c : text) cell += c == '"' ? std::string("\"\"") : std::string(1, c);
  return cell + '"';
}

}  // namespace gley::daemon

#pragma once
#include <string>
#include <string_view>

namespace gley::daemon {

/// With its letters A to Z small and all else as it is, under every locale.
[[nodiscard]] inline std::string lower_case(std::string_view text) {
  std::string out(text);
  for (char& letter : out)
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  return out;
}

}  // namespace gley::daemon

#pragma once
#include <cstdio>
#include <cstdlib>
#include <string>
#include <string_view>

namespace gley::tests {

/// What must hold for every input; a fuzzer keeps the input for which it does not.
inline void must(bool holds, std::string_view what) {
  if (holds) return;
  std::fprintf(stderr, "does not hold: %.*s\n", static_cast<int>(what.size()), what.data());
  std::abort();
}

/// A line for a log or a terminal: not empty, one line, no control character.
inline void must_be_a_line(std::string_view text) {
  must(!text.empty(), "words that are not empty");
  for (const char c : text)
    must(static_cast<unsigned char>(c) >= 0x20 && c != 0x7f, "no control character in words");
}

}  // namespace gley::tests

#pragma once
#include <cstddef>
#include <string_view>

/// A parser and whoever walks what it made may go down the call stack with each bracket, and a
/// stack ends. So JSON that others wrote is measured before it is parsed.
namespace gley::daemon {

/// What we read nests to 8, an outline among several features the deepest. Our choice.
inline constexpr std::size_t deepest_json = 64;

/// For a message: what is wrong, and how much may be.
inline constexpr std::string_view nests_too_deep_text =
    "brackets lie within brackets more than 64 deep";

/// Brackets open at once at the deepest place, those in strings left out.
[[nodiscard]] std::size_t nesting_depth(std::string_view json);

[[nodiscard]] inline bool nests_too_deep(std::string_view json) {
  return nesting_depth(json) > deepest_json;
}

}  // namespace gley::daemon

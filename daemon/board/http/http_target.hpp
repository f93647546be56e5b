#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>

namespace gley::daemon {

/// A request target split and decoded.
struct HttpTarget {
  std::string path;
  std::map<std::string, std::string> query;
};

/// Splits "/field/top?from=2026-01-01". Nothing for a target that is not a plain absolute path: a
/// broken percent sign, an encoded slash, a control character, bytes that are not UTF-8, a
/// backslash, an empty or dotted segment, a query key given twice. So a path has one spelling
/// only, and what it matches in the table of routes is what the client meant.
[[nodiscard]] std::optional<HttpTarget> parse_target(std::string_view target);

/// The segment that stands for the pattern's *, empty where it has none; nothing if they differ.
[[nodiscard]] std::optional<std::string_view> match(std::string_view pattern,
                                                    std::string_view path);

}  // namespace gley::daemon

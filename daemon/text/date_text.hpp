#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace gley::daemon {

/// 2024-02-29 (RFC 3339 full-date).
[[nodiscard]] std::string date_text(std::chrono::sys_days date);

/// A full-date that exists, years 1800 to 2200, and nothing else.
[[nodiscard]] std::optional<std::chrono::sys_days> date_from(std::string_view text);

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <map>
#include <string>
#include <tl/expected.hpp>

#include "daemon/readings/day_range.hpp"

namespace gley::daemon {

/// Reads ?date=2026-01-31. The error is a sentence for whoever asked.
[[nodiscard]] tl::expected<std::chrono::sys_days, std::string> read_one_day(
    const std::map<std::string, std::string>& query);

/// Reads ?from=2026-01-01&to=2026-03-31. The error is a sentence for whoever asked.
[[nodiscard]] tl::expected<DayRange, std::string> read_day_range(
    const std::map<std::string, std::string>& query);

}  // namespace gley::daemon

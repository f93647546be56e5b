#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <tl/expected.hpp>

namespace gley::daemon {

using Date = std::chrono::year_month_day;

/// The days asked for, both ends included; an end left out is open.
struct DayRange {
  std::optional<Date> from;
  std::optional<Date> to;

  friend bool operator==(const DayRange&, const DayRange&) = default;
};

/// Reads ?date=2026-01-31. The error is a sentence for whoever asked.
[[nodiscard]] tl::expected<Date, std::string> read_one_day(
    const std::map<std::string, std::string>& query);

/// Reads ?from=2026-01-01&to=2026-03-31. The error is a sentence for whoever asked.
[[nodiscard]] tl::expected<DayRange, std::string> read_day_range(
    const std::map<std::string, std::string>& query);

}  // namespace gley::daemon

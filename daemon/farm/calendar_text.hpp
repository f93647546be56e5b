#pragma once
#include <chrono>
#include <optional>
#include <string_view>

namespace gley::daemon {

/// "MM-DD"; none unless it is a day of some year.
[[nodiscard]] std::optional<std::chrono::month_day> parse_month_day(std::string_view text);

/// "YYYY-MM-DD"; none unless the calendar has that day.
[[nodiscard]] std::optional<std::chrono::year_month_day> parse_date(std::string_view text);

/// "HH:MM", 00:00 to 23:59.
[[nodiscard]] std::optional<std::chrono::minutes> parse_time_of_day(std::string_view text);

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <string_view>

#include "model/crop/calendar_day.hpp"

namespace gley::daemon {

/// "MM-DD"; none unless it is a day of some year.
[[nodiscard]] std::optional<std::chrono::month_day> parse_month_day(std::string_view text);

/// That, or a full date; none unless the calendar has that day.
[[nodiscard]] std::optional<model::CalendarDay> parse_calendar_day(std::string_view text);

/// As it is written: "2026-03-20" or "03-20".
[[nodiscard]] std::string day_text(const model::CalendarDay& day);

/// "HH:MM", 00:00 to 23:59.
[[nodiscard]] std::optional<std::chrono::minutes> parse_time_of_day(std::string_view text);

}  // namespace gley::daemon

#include "daemon/farm/calendar_text.hpp"

#include <array>
#include <cstdio>

namespace gley::daemon {
namespace {

/// A whole number in exactly the digits of `text`: no sign, no space.
std::optional<unsigned> digits(std::string_view text) {
  unsigned number = 0;
  for (const char c : text) {
    if (c < '0' || c > '9') return std::nullopt;
    number = number * 10 + static_cast<unsigned>(c - '0');
  }
  return number;
}

}  // namespace

std::optional<std::chrono::month_day> parse_month_day(std::string_view text) {
  if (text.size() != 5 || text[2] != '-') return std::nullopt;
  const auto month = digits(text.substr(0, 2));
  const auto day = digits(text.substr(3, 2));
  if (!month || !day) return std::nullopt;
  const std::chrono::month_day date{std::chrono::month{*month}, std::chrono::day{*day}};
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<std::chrono::year_month_day> parse_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-') return std::nullopt;
  const auto year = digits(text.substr(0, 4));
  const auto month_day = parse_month_day(text.substr(5));
  if (!year || !month_day) return std::nullopt;
  const std::chrono::year_month_day date = std::chrono::year{static_cast<int>(*year)} / *month_day;
  if (!date.ok()) return std::nullopt;
  return date;
}

std::optional<model::CalendarDay> parse_calendar_day(std::string_view text) {
  if (const auto date = parse_date(text))
    return model::CalendarDay{.year = date->year(), .day = date->month() / date->day()};
  if (const auto day = parse_month_day(text)) return model::CalendarDay{.day = *day};
  return std::nullopt;
}

std::string date_text(std::chrono::year_month_day date) {
  std::array<char, 16> text{};
  std::snprintf(text.data(), text.size(), "%04d-%02u-%02u", static_cast<int>(date.year()),
                static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
  return text.data();
}

std::string day_text(const model::CalendarDay& day) {
  const std::string whole = date_text(day.year.value_or(std::chrono::year{2000}) / day.day);
  return day.year ? whole : whole.substr(5);
}

std::optional<std::chrono::minutes> parse_time_of_day(std::string_view text) {
  if (text.size() != 5 || text[2] != ':') return std::nullopt;
  const auto hour = digits(text.substr(0, 2));
  const auto minute = digits(text.substr(3, 2));
  if (!hour || !minute || *hour > 23 || *minute > 59) return std::nullopt;
  return std::chrono::hours{*hour} + std::chrono::minutes{*minute};
}

}  // namespace gley::daemon

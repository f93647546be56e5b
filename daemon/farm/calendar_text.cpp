#include "daemon/farm/calendar_text.hpp"

#include "daemon/text/date_text.hpp"

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
  const auto in_a_leap_year = date_from("2000-" + std::string(text));
  if (!in_a_leap_year) return std::nullopt;
  const std::chrono::year_month_day date{*in_a_leap_year};
  return date.month() / date.day();
}

std::optional<model::CalendarDay> parse_calendar_day(std::string_view text) {
  if (const auto day = date_from(text)) {
    const std::chrono::year_month_day date{*day};
    return model::CalendarDay{.year = date.year(), .day = date.month() / date.day()};
  }
  if (const auto day = parse_month_day(text)) return model::CalendarDay{.day = *day};
  return std::nullopt;
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

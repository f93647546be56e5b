#include "daemon/text/date_text.hpp"

#include <charconv>

namespace gley::daemon {

namespace {

std::string padded(unsigned number, std::size_t width) {
  std::string digits = std::to_string(number);
  return std::string(width > digits.size() ? width - digits.size() : 0, '0') + digits;
}

std::optional<int> digits_from(std::string_view text) {
  int value = 0;
  for (const char c : text)
    if (c < '0' || c > '9') return {};
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{}) return {};
  return value;
}

}  // namespace

std::string date_text(std::chrono::sys_days date) {
  const std::chrono::year_month_day day{date};
  return padded(static_cast<unsigned>(int(day.year())), 4) + '-' +
         padded(unsigned(day.month()), 2) + '-' + padded(unsigned(day.day()), 2);
}

std::optional<std::chrono::sys_days> date_from(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return {};
  const auto year = digits_from(text.substr(0, 4));
  const auto month = digits_from(text.substr(5, 2));
  const auto day = digits_from(text.substr(8, 2));
  if (!year || !month || !day || *year < 1800 || *year > 2200) return {};
  const std::chrono::year_month_day date{std::chrono::year{*year},
                                         std::chrono::month{static_cast<unsigned>(*month)},
                                         std::chrono::day{static_cast<unsigned>(*day)}};
  if (!date.ok()) return {};
  return std::chrono::sys_days{date};
}

}  // namespace gley::daemon

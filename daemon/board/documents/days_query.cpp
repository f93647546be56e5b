#include "daemon/board/documents/days_query.hpp"

#include <charconv>
#include <string_view>

namespace gley::daemon {
namespace {

std::optional<int> read_digits(std::string_view text) {
  int value = 0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  if (end.ec != std::errc{} || end.ptr != text.data() + text.size() || value < 0) {
    return std::nullopt;
  }
  return value;
}

/// "2026-01-31", and nothing looser.
std::optional<Date> read_date(std::string_view text) {
  if (text.size() != 10 || text[4] != '-' || text[7] != '-') return std::nullopt;
  const auto year = read_digits(text.substr(0, 4));
  const auto month = read_digits(text.substr(5, 2));
  const auto day = read_digits(text.substr(8, 2));
  if (!year || !month || !day) return std::nullopt;
  const Date date{std::chrono::year{*year}, std::chrono::month{static_cast<unsigned>(*month)},
                  std::chrono::day{static_cast<unsigned>(*day)}};
  return date.ok() ? std::optional(date) : std::nullopt;
}

std::string unknown_key(const std::string& key, const std::string& known) {
  return '"' + key + "\" is not asked for here: only " + known + '.';
}

std::string no_date(const std::string& key, const std::string& value) {
  return key + "=\"" + value + "\" is not a date: write it as 2026-01-31.";
}

}  // namespace

tl::expected<Date, std::string> read_one_day(const std::map<std::string, std::string>& query) {
  for (const auto& [key, value] : query)
    if (key != "date") return tl::unexpected(unknown_key(key, "date"));
  const auto given = query.find("date");
  if (given == query.end()) return tl::unexpected(std::string("Say which day: ?date=2026-01-31."));
  const auto date = read_date(given->second);
  if (!date) return tl::unexpected(no_date("date", given->second));
  return *date;
}

tl::expected<DayRange, std::string> read_day_range(
    const std::map<std::string, std::string>& query) {
  DayRange range;
  for (const auto& [key, value] : query) {
    if (key != "from" && key != "to") {
      return tl::unexpected(unknown_key(key, "from and to"));
    }
    const auto date = read_date(value);
    if (!date) {
      return tl::unexpected(no_date(key, value));
    }
    (key == "from" ? range.from : range.to) = date;
  }
  if (range.from && range.to && *range.to < *range.from) {
    return tl::unexpected(std::string("to is before from: no day lies between them."));
  }
  return range;
}

}  // namespace gley::daemon

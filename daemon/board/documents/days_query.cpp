#include "daemon/board/documents/days_query.hpp"

#include "daemon/text/date_text.hpp"

namespace gley::daemon {
namespace {

std::string unknown_key(const std::string& key, const std::string& known) {
  return '"' + key + "\" is not asked for here: only " + known + '.';
}

std::string no_date(const std::string& key, const std::string& value) {
  return key + "=\"" + value + "\" is not a date: write it as 2026-01-31.";
}

}  // namespace

tl::expected<std::chrono::sys_days, std::string> read_one_day(
    const std::map<std::string, std::string>& query) {
  for (const auto& [key, value] : query)
    if (key != "date") return tl::unexpected(unknown_key(key, "date"));
  const auto given = query.find("date");
  if (given == query.end()) return tl::unexpected(std::string("Say which day: ?date=2026-01-31."));
  const auto date = date_from(given->second);
  if (!date) return tl::unexpected(no_date("date", given->second));
  return *date;
}

tl::expected<DayRange, std::string> read_day_range(
    const std::map<std::string, std::string>& query) {
  DayRange range;
  for (const auto& [key, value] : query) {
    if (key != "from" && key != "to") return tl::unexpected(unknown_key(key, "from and to"));
    const auto date = date_from(value);
    if (!date) return tl::unexpected(no_date(key, value));
    (key == "from" ? range.from : range.to) = *date;
  }
  if (range.from && range.to && *range.to < *range.from)
    return tl::unexpected(std::string("to is before from: no day lies between them."));
  return range;
}

}  // namespace gley::daemon

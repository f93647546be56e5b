#include "daemon/board/words/local_time.hpp"

#include <date/tz.h>

#include <array>
#include <stdexcept>

#include "daemon/text/date_text.hpp"

namespace gley::daemon {
namespace {

namespace chrono = std::chrono;

// Written out: the library's own names follow the process's locale.
constexpr std::array<std::string_view, 7> weekdays{"Sunday",   "Monday", "Tuesday", "Wednesday",
                                                   "Thursday", "Friday", "Saturday"};
constexpr std::array<std::string_view, 12> months{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};

std::string digits(long value, std::size_t width) {
  std::string text = std::to_string(value);
  return text.size() < width ? std::string(width - text.size(), '0') + text : text;
}

std::string weekday_of(chrono::sys_days day) {
  return std::string(weekdays.at(chrono::weekday{day}.c_encoding()));
}

std::string month_of(chrono::year_month_day date) {
  return std::string(months.at(static_cast<unsigned>(date.month()) - 1));
}

std::string day_digits(chrono::year_month_day date) {
  return std::to_string(static_cast<unsigned>(date.day()));
}

/// "25 Nov"
std::string short_month_day(chrono::year_month_day date) {
  return day_digits(date) + ' ' + month_of(date).substr(0, 3);
}

/// "Wed 25 Nov"
std::string short_day(chrono::sys_days day) {
  return weekday_of(day).substr(0, 3) + ' ' + short_month_day(day);
}

std::string clock_of(chrono::seconds since_midnight) {
  const auto minutes = chrono::floor<chrono::minutes>(since_midnight).count();
  return digits(minutes / 60, 2) + ':' + digits(minutes % 60, 2);
}

std::string clock_with_seconds(chrono::seconds since_midnight) {
  return clock_of(since_midnight) + ':' + digits(since_midnight.count() % 60, 2);
}

}  // namespace

std::string rfc3339(Instant instant) {
  const auto second = chrono::floor<chrono::seconds>(instant);
  const auto day = chrono::floor<chrono::days>(second);
  return date_text(day) + 'T' + clock_with_seconds(second - day) + 'Z';
}

std::string http_date(Instant instant) {
  const auto second = chrono::floor<chrono::seconds>(instant);
  const auto day = chrono::floor<chrono::days>(second);
  const chrono::year_month_day date{day};
  return weekday_of(day).substr(0, 3) + ", " + digits(static_cast<unsigned>(date.day()), 2) + ' ' +
         month_of(date).substr(0, 3) + ' ' + digits(static_cast<int>(date.year()), 4) + ' ' +
         clock_with_seconds(second - day) + " GMT";
}

std::string short_date(const std::string& date) {
  const auto day = date_from(date);
  return day ? short_day(*day) : date;
}

/// Local wall time, split at midnight.
struct FarmClock::Local {
  chrono::sys_days day;
  chrono::seconds since_midnight;
  chrono::year_month_day date;
};

FarmClock::FarmClock(const std::string& time_zone) {
  try {
    zone_ = date::locate_zone(time_zone);
  } catch (const std::runtime_error&) {
    zone_ = nullptr;
  }
}

FarmClock::Local FarmClock::local(Instant instant) const {
  const auto second = chrono::floor<chrono::seconds>(instant);
  const auto offset = zone_ ? zone_->get_info(second).offset : chrono::seconds{0};
  const auto shifted = second + offset;
  const auto day = chrono::floor<chrono::days>(shifted);
  return {.day = day, .since_midnight = shifted - day, .date = chrono::year_month_day{day}};
}

std::string FarmClock::clock(Instant instant) const {
  return clock_of(local(instant).since_midnight) + (zone_ ? "" : " UTC");
}

std::string FarmClock::day(Instant instant) const {
  const Local at = local(instant);
  return weekday_of(at.day) + ' ' + day_digits(at.date) + ' ' + month_of(at.date) + ' ' +
         std::to_string(static_cast<int>(at.date.year()));
}

std::string FarmClock::weekday(Instant instant) const {
  return weekday_of(local(instant).day).substr(0, 3);
}

std::string FarmClock::date(Instant instant) const {
  return short_month_day(local(instant).date);
}

std::string FarmClock::day_and_clock(Instant instant) const {
  return short_day(local(instant).day) + ' ' + clock(instant);
}

std::string FarmClock::as_seen(Instant instant, Instant now) const {
  const Local at = local(instant);
  const Local today = local(now);
  if (at.day == today.day) return clock(instant);
  if (at.date.year() == today.date.year()) return day_and_clock(instant);
  return date(instant) + ' ' + std::to_string(static_cast<int>(at.date.year())) + ' ' +
         clock(instant);
}

}  // namespace gley::daemon

#include "daemon/readings/rfc3339.hpp"

#include <cmath>

namespace gley::daemon {
namespace {

/// Reads a text from its front; after the first thing that does not fit all further reads fail.
class Scanner {
 public:
  explicit Scanner(std::string_view text) : text_(text) {}

  int digits(int count) {
    int value = 0;
    for (int i = 0; i < count; ++i) {
      if (!at_digit()) good_ = false;
      if (good_) value = value * 10 + (take() - '0');
    }
    return value;
  }
  void expect(std::string_view any_of) {
    if (text_.empty() || any_of.find(text_.front()) == std::string_view::npos) good_ = false;
    if (good_) take();
  }
  [[nodiscard]] bool next_is(char c) const { return good_ && text_.starts_with(c); }
  [[nodiscard]] bool at_digit() const {
    return good_ && !text_.empty() && text_.front() >= '0' && text_.front() <= '9';
  }
  [[nodiscard]] bool good() const { return good_; }
  [[nodiscard]] bool at_end() const { return good_ && text_.empty(); }

 private:
  char take() {
    const char c = text_.front();
    text_.remove_prefix(1);
    return c;
  }

  std::string_view text_;
  bool good_ = true;
};

std::chrono::milliseconds fraction(Scanner& scan) {
  if (!scan.next_is('.')) return {};
  scan.expect(".");
  if (!scan.at_digit()) scan.expect("0");
  int milliseconds = 0;
  for (int place = 100; scan.at_digit(); place /= 10) milliseconds += place * scan.digits(1);
  return std::chrono::milliseconds(milliseconds);
}

/// The offset from UTC, or more than a day if there is none that can be read.
std::chrono::minutes offset(Scanner& scan) {
  if (scan.next_is('Z') || scan.next_is('z')) {
    scan.expect("Zz");
    return {};
  }
  const int sign = scan.next_is('-') ? -1 : 1;
  scan.expect("+-");
  const int hours = scan.digits(2);
  scan.expect(":");
  const int minutes = scan.digits(2);
  if (hours > 23 || minutes > 59) return std::chrono::hours(100);
  return std::chrono::minutes(sign * (60 * hours + minutes));
}

}  // namespace

std::optional<Instant> parse_rfc3339(std::string_view text) {
  Scanner scan(text);
  const int year = scan.digits(4);
  scan.expect("-");
  const int month = scan.digits(2);
  scan.expect("-");
  const int day = scan.digits(2);
  scan.expect("Tt ");
  const int hour = scan.digits(2);
  scan.expect(":");
  const int minute = scan.digits(2);
  scan.expect(":");
  const int second = scan.digits(2);
  const auto part = fraction(scan);
  const auto from_utc = offset(scan);
  const std::chrono::year_month_day date{std::chrono::year(year),
                                         std::chrono::month(static_cast<unsigned>(month)),
                                         std::chrono::day(static_cast<unsigned>(day))};
  // 60 is a leap second (RFC 3339 Section 5.6); it counts as the first of the next minute.
  const bool sound = scan.at_end() && date.ok() && hour <= 23 && minute <= 59 && second <= 60 &&
                     from_utc < std::chrono::hours(24);
  if (!sound) return {};
  return Instant(std::chrono::sys_days(date)) + std::chrono::hours(hour) +
         std::chrono::minutes(minute) + std::chrono::seconds(second) + part - from_utc;
}

std::optional<Instant> from_unix_seconds(double seconds) {
  constexpr double first = -62135596800.0;  // 0001-01-01
  constexpr double last = 253402300799.0;   // 9999-12-31
  if (!(seconds >= first && seconds <= last)) return {};
  return Instant(std::chrono::milliseconds(std::llround(seconds * 1000.0)));
}

}  // namespace gley::daemon

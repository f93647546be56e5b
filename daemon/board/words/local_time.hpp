#pragma once
#include <string>
#include <string_view>

#include "daemon/readings/reading.hpp"

namespace date {
class time_zone;
}

namespace gley::daemon {

/// "2026-11-25T06:40:00Z" (RFC 3339), whole seconds.
[[nodiscard]] std::string rfc3339(Instant instant);

/// "Wed, 25 Nov 2026 06:40:00 GMT" (RFC 9110, section 5.6.7).
[[nodiscard]] std::string http_date(Instant instant);

/// "Wed 25 Nov" of "2026-11-25".
[[nodiscard]] std::string short_date(const std::string& date);

/// Instants as the farm's own clock shows them. In a zone this system does not know, times are
/// UTC and say so.
class FarmClock {
 public:
  explicit FarmClock(const std::string& time_zone);

  [[nodiscard]] std::string clock(Instant instant) const;          ///< "06:40"
  [[nodiscard]] std::string day(Instant instant) const;            ///< "Wednesday 25 November 2026"
  [[nodiscard]] std::string weekday(Instant instant) const;        ///< "Wed"
  [[nodiscard]] std::string date(Instant instant) const;           ///< "25 Nov"
  [[nodiscard]] std::string day_and_clock(Instant instant) const;  ///< "Wed 25 Nov 06:40"
  /// "06:40" on the local day of `now`, else "Mon 23 Nov 14:05", with the year if it is another.
  [[nodiscard]] std::string as_seen(Instant instant, Instant now) const;

 private:
  struct Local;
  [[nodiscard]] Local local(Instant instant) const;
  const date::time_zone* zone_ = nullptr;
};

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <string>

#include "daemon/readings/reading.hpp"

namespace date {
class time_zone;
}

namespace gley::daemon {

/// The farm's calendar: which farm day an instant belongs to. A day is named by the date on which
/// it begins, at the same local time all year, so it has 23 or 25 hours when the clocks change.
class FarmCalendar {
 public:
  /// Throws std::runtime_error if the time zone is unknown.
  FarmCalendar(const std::string& time_zone, std::chrono::minutes day_starts);

  [[nodiscard]] Instant begins(std::chrono::sys_days day) const;
  [[nodiscard]] Instant ends(std::chrono::sys_days day) const;

  /// The day in which an instant lies; its first moment is the day's own.
  [[nodiscard]] std::chrono::sys_days day_of(Instant instant) const;

  /// The day to which an amount belongs that was gathered until an instant: a stamp exactly at a
  /// day's start closes the day before.
  [[nodiscard]] std::chrono::sys_days day_of_amount_until(Instant instant) const;

 private:
  const date::time_zone* zone_;  ///< in the library's own table, which lives for ever
  std::chrono::minutes day_starts_;
};

}  // namespace gley::daemon

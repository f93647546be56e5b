#pragma once
#include <vector>

#include "daemon/engine/outlook/outlook_job.hpp"

namespace gley::daemon {

/// The hours of the farm's clock in which people work, every day alike.
class WorkingHours {
 public:
  /// Throws std::runtime_error if the time zone is unknown.
  explicit WorkingHours(const FarmConfig& farm);

  /// The moment itself in working hours, else the next at which they begin.
  [[nodiscard]] Instant open_from(Instant moment) const;

  /// The windows as far as they hold working hours; each begins and ends in them.
  [[nodiscard]] std::vector<TimeWindow> windows(const std::vector<TimeWindow>& all) const;

 private:
  /// The moment itself in working hours, else the last at which they ended.
  [[nodiscard]] Instant open_until(Instant moment) const;

  FarmCalendar mornings_;  ///< days that begin with work
  FarmCalendar evenings_;  ///< days that begin with its end
};

}  // namespace gley::daemon

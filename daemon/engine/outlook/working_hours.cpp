#include "daemon/engine/outlook/working_hours.hpp"

namespace gley::daemon {

// A day counted from its morning: work has ended on it when the evening of the same name has come.
WorkingHours::WorkingHours(const FarmConfig& farm)
    : mornings_(farm.time_zone, farm.alerts.working_from),
      evenings_(farm.time_zone, farm.alerts.working_to) {}

Instant WorkingHours::open_from(Instant moment) const {
  const auto day = mornings_.day_of(moment);
  return moment < evenings_.begins(day) ? moment : mornings_.begins(day + std::chrono::days{1});
}

Instant WorkingHours::open_until(Instant moment) const {
  const Instant evening = evenings_.begins(mornings_.day_of(moment));
  return moment < evening ? moment : evening;
}

std::vector<TimeWindow> WorkingHours::windows(const std::vector<TimeWindow>& all) const {
  std::vector<TimeWindow> out;
  for (TimeWindow window : all) {
    window.from = open_from(window.from);
    window.to = open_until(window.to);
    if (window.from < window.to) out.push_back(window);
  }
  return out;
}

}  // namespace gley::daemon

#include "daemon/readings/farm_day.hpp"

#include <date/tz.h>

namespace gley::daemon {

FarmCalendar::FarmCalendar(const std::string& time_zone, std::chrono::minutes day_starts)
    : zone_(date::locate_zone(time_zone)), day_starts_(day_starts) {}

Instant FarmCalendar::begins(std::chrono::sys_days day) const {
  const date::local_time<std::chrono::milliseconds> local{day.time_since_epoch() + day_starts_};
  // Where the clocks jump over the hour at which a day starts, the day starts with the jump.
  return zone_->to_sys(local, date::choose::earliest);
}

Instant FarmCalendar::ends(std::chrono::sys_days day) const {
  return begins(day + std::chrono::days{1});
}

std::chrono::sys_days FarmCalendar::day_of(Instant instant) const {
  const auto local = zone_->to_local(instant) - day_starts_;
  std::chrono::sys_days day{std::chrono::floor<std::chrono::days>(local.time_since_epoch())};
  // A change of clocks near the day's start can put the guess one day off.
  if (instant < begins(day)) day -= std::chrono::days{1};
  if (instant >= ends(day)) day += std::chrono::days{1};
  return day;
}

std::chrono::sys_days FarmCalendar::day_of_amount_until(Instant instant) const {
  const std::chrono::sys_days day = day_of(instant);
  return instant == begins(day) ? day - std::chrono::days{1} : day;
}

}  // namespace gley::daemon

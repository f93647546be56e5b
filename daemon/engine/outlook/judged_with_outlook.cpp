#include "daemon/engine/outlook/judged_with_outlook.hpp"

#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/readings/hours.hpp"

namespace gley::daemon {

JudgedDay judged_with_outlook(const FarmState& state, std::size_t field, Instant now,
                              const FarmOutlook* outlook) {
  const std::vector<std::string>& stations = state.book().config(field).stations;
  const std::string& rain_station = state.book().weather(field).rain_station(state.today());
  JudgedDay judged = judged_today(state, field);
  judged.silence = silence_of(state, stations, now);
  if (const FieldDaysAhead* ahead = days_ahead_of(outlook, field)) judged.ahead = ahead->spreading;
  judged.frozen_h = state.last_hours().frozen_h(stations.front());
  judged.rain = RainAround{.since_h = state.last_hours().dry_h(rain_station),
                           .is_forecast = outlook != nullptr};
  if (outlook != nullptr && outlook->rain_at)
    judged.rain->until_h = Hours(*outlook->rain_at - now).count();
  return judged;
}

}  // namespace gley::daemon

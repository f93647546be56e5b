#include "daemon/engine/judge/judged_today.hpp"

#include <algorithm>

#include "daemon/readings/hours.hpp"

namespace gley::daemon {

JudgedDay judged_today(const FarmState& state, std::size_t field) {
  const std::optional<model::FieldDay>& yesterday = state.book().history(field).last();
  const std::string& station = state.book().weather(field).rain_station(state.today());
  return {.field = state.book().history(field).field(),
          .day = state.day_of(field).value(),
          .before = {.frozen = yesterday && yesterday->ground.frozen,
                     .rain_24h_mm = state.last_hours().rain_24h_mm(station)},
          .if_wetter = state.day_if_wetter(field)};
}

std::optional<model::Silence> silence_of(const FarmState& state,
                                         const std::vector<std::string>& stations, Instant now) {
  std::optional<Instant> heard;
  for (const std::string& station : stations) {
    const auto own = state.keeper().last_heard().find(station);
    if (own != state.keeper().last_heard().end())
      heard = std::max(heard.value_or(own->second), own->second);
  }
  if (!heard) return {};
  const double allowed_h = state.farm().silent_after_h;
  const double silent_h = Hours(now - *heard).count();
  if (silent_h <= allowed_h) return {};
  return model::Silence{.silent_h = silent_h, .allowed_h = allowed_h};
}

std::set<std::string> silent_stations(const FarmState& state, Instant now) {
  std::set<std::string> silent;
  for (const auto& [station, heard] : state.keeper().last_heard())
    if (silence_of(state, {station}, now)) silent.insert(station);
  return silent;
}

}  // namespace gley::daemon

#pragma once
#include <array>
#include <chrono>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// What can begin and end on a farm. Words of the contracts: see words_of.
enum class AlertEvent {
  at_field_capacity,
  waterlogged,
  rain_expected,  ///< that may bring a field to field capacity
  window_opening,
  window_closing,
  rain_on_dressing,  ///< heavy, on a fresh one
  runoff_likely,
  drains_to_start,
  drains_to_stop,
  frozen_ground,
  short_of_water,
  station_silent,
  time_unknown,
  gauge_blocked,
  readings_doubted,
  clock_off
};
/// All of them, in the order in which they are looked for.
inline constexpr std::array alert_events{
    AlertEvent::at_field_capacity, AlertEvent::waterlogged,     AlertEvent::rain_expected,
    AlertEvent::window_opening,    AlertEvent::window_closing,  AlertEvent::rain_on_dressing,
    AlertEvent::runoff_likely,     AlertEvent::drains_to_start, AlertEvent::drains_to_stop,
    AlertEvent::frozen_ground,     AlertEvent::short_of_water,  AlertEvent::station_silent,
    AlertEvent::time_unknown,      AlertEvent::gauge_blocked,   AlertEvent::readings_doubted,
    AlertEvent::clock_off};

[[nodiscard]] constexpr bool is_of_quality(AlertEvent event) {
  return event == AlertEvent::gauge_blocked || event == AlertEvent::readings_doubted ||
         event == AlertEvent::clock_off;
}
[[nodiscard]] constexpr bool is_of_stations(AlertEvent event) {
  return event == AlertEvent::station_silent || event == AlertEvent::time_unknown ||
         is_of_quality(event);
}
[[nodiscard]] constexpr bool is_of_windows(AlertEvent event) {
  return event == AlertEvent::window_opening || event == AlertEvent::window_closing;
}

/// The standing text of an event in the words of OASIS CAP 1.2.
struct AlertWords {
  std::string_view event;
  std::string_view severity;
  std::string_view urgency;
  std::string_view certainty;
  std::string_view headline;     ///< what it is, before the names of the fields
  std::string_view description;  ///< what it means
  std::string_view instruction;  ///< what to do
  /// How long it must have ceased to hold for a field before that field leaves, so that what
  /// comes and goes within a day is told once.
  std::chrono::hours lingers{0};
};
[[nodiscard]] const AlertWords& words_of(AlertEvent event);
[[nodiscard]] std::optional<AlertEvent> alert_event_from(std::string_view word);

/// One thing that began, for the fields (or stations) it holds for.
struct Alert {
  std::string id;
  AlertEvent event = AlertEvent::at_field_capacity;
  std::string subject = {};          ///< what it is about beside its members: a machine's id
  std::vector<std::string> members;  ///< ids of all that it ever held for, in order of joining
  std::set<std::string> active;      ///< ids that it holds for now
  std::map<std::string, Instant> ceased = {};  ///< of the active: since when it only lingers
  Instant onset{};
  std::optional<Instant> ended;
};

}  // namespace gley::daemon

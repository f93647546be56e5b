#pragma once
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// What can begin and end on a farm. Words of the contracts: see to_word.
enum class AlertEvent {
  at_field_capacity,
  waterlogged,
  rain_expected,  ///< that may bring a field to field capacity
  station_silent,
  time_unknown,
  gauge_blocked,
  readings_doubted,
  clock_off
};

/// The standing text of an event in the words of OASIS CAP 1.2.
struct AlertWords {
  std::string_view event;
  std::string_view severity;
  std::string_view urgency;
  std::string_view certainty;
  std::string_view headline;     ///< what it is, before the names of the fields
  std::string_view description;  ///< what it means
  std::string_view instruction;  ///< what to do
};
[[nodiscard]] const AlertWords& words_of(AlertEvent event);
[[nodiscard]] std::optional<AlertEvent> alert_event_from(std::string_view word);

/// One thing that began, for the fields (or stations) it holds for.
struct Alert {
  std::string id;
  AlertEvent event = AlertEvent::at_field_capacity;
  std::vector<std::string> members;  ///< ids of all that it ever held for, in order of joining
  std::set<std::string> active;      ///< ids that it holds for now
  Instant onset{};
  std::optional<Instant> ended;
};

}  // namespace gley::daemon

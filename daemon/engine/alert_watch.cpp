#include "daemon/engine/alert_watch.hpp"

#include <array>

#include "daemon/alerts/field_conditions.hpp"
#include "daemon/engine/board_view.hpp"

namespace gley::daemon {

namespace {

constexpr std::array events{AlertEvent::at_field_capacity, AlertEvent::waterlogged,
                            AlertEvent::station_silent, AlertEvent::time_unknown};

/// How long readings without a time are named after they came.
constexpr std::chrono::hours time_unknown_is_named{24};

std::set<std::string> fields_where(AlertEvent event, const FarmState& state) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < state.book().fields(); ++i)
    if (state.day_of(i) && holds_for(event, *state.day_of(i)))
      ids.insert(state.book().config(i).id);
  return ids;
}

std::set<std::string> members_of(AlertEvent event, const FarmState& state, Instant now) {
  if (event == AlertEvent::station_silent) return silent_stations(state, now);
  if (event != AlertEvent::time_unknown) return fields_where(event, state);
  std::set<std::string> stations;
  for (const auto& [station, received] : state.keeper().time_unknown())
    if (now - received < time_unknown_is_named) stations.insert(station);
  return stations;
}

std::optional<Alert> taken_up(const StoredAlert& stored) {
  const std::optional<AlertEvent> event = alert_event_from(stored.event);
  if (!event) return {};
  Alert alert;
  alert.id = stored.id;
  alert.event = *event;
  alert.members = stored.fields;
  alert.active.insert(stored.active.begin(), stored.active.end());
  alert.onset = stored.onset;
  return alert;
}

}  // namespace

AlertWatch::AlertWatch(Database& database) : store_(database) {
  std::vector<Alert> open;
  for (const StoredAlert& stored : store_.open())
    if (auto alert = taken_up(stored)) open.push_back(std::move(*alert));
  book_.restore(std::move(open));
}

void AlertWatch::keep(const Alert& alert) {
  const AlertWords& words = words_of(alert.event);
  store_.put({.id = alert.id,
              .event = std::string(words.event),
              .fields = alert.members,
              .active = {alert.active.begin(), alert.active.end()},
              .severity = std::string(words.severity),
              .onset = alert.onset,
              .ended = alert.ended,
              .headline = std::string(words.headline),
              .seen_by = {},
              .seen = {}});
}

bool AlertWatch::look(const FarmState& state, Instant now) {
  bool any = false;
  for (const AlertEvent event : events) {
    const AlertBook::Changes changes = book_.look(event, members_of(event, state, now), now);
    any = any || changes.any();
    for (const auto* ids : {&changes.begun, &changes.changed})
      for (const std::string& id : *ids)
        if (const Alert* alert = book_.find_open(id)) keep(*alert);
    for (const Alert& alert : book_.take_ended()) {
      keep(alert);
      ended_.push_back(alert.id);
    }
  }
  return any;
}

}  // namespace gley::daemon

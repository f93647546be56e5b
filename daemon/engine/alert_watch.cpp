#include "daemon/engine/alert_watch.hpp"

#include <array>

#include "daemon/alerts/field_conditions.hpp"
#include "daemon/engine/board_view.hpp"
#include "daemon/engine/doubt_view.hpp"

namespace gley::daemon {

namespace {

constexpr std::array events{AlertEvent::at_field_capacity, AlertEvent::waterlogged,
                            AlertEvent::rain_expected,     AlertEvent::station_silent,
                            AlertEvent::time_unknown,      AlertEvent::gauge_blocked,
                            AlertEvent::readings_doubted,  AlertEvent::clock_off};

/// How long readings without a time are named after they came.
constexpr std::chrono::hours time_unknown_is_named{24};

/// Chance of reaching field capacity from which a field is named, and below which it no longer is,
/// so that a chance about the limit does not repeat itself. The first: soil reference, our choice
/// both.
constexpr double named_from_chance = 0.3;
constexpr double named_to_chance = 0.2;

std::set<std::string> fields_where(AlertEvent event, const FarmState& state) {
  std::set<std::string> ids;
  for (std::size_t i = 0; i < state.book().fields(); ++i)
    if (state.day_of(i) && holds_for(event, *state.day_of(i)))
      ids.insert(state.book().config(i).id);
  return ids;
}

std::set<std::string> members_of(AlertEvent event, const FarmState& state, Instant now) {
  if (event == AlertEvent::station_silent) return silent_stations(state, now);
  if (is_of_quality(event)) return stations_doubted(event, state, now);
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

std::set<std::string> AlertWatch::filling_soon(const FarmState& state,
                                               const FarmOutlook* outlook) const {
  std::set<std::string> ids;
  if (outlook == nullptr) return ids;
  std::set<std::string> named;
  for (const Alert& alert : book_.open())
    if (alert.event == AlertEvent::rain_expected)
      named.insert(alert.active.begin(), alert.active.end());
  for (std::size_t i = 0; i < state.book().fields() && i < outlook->fields.size(); ++i) {
    if (!state.day_of(i) || !outlook->fields[i]) continue;
    const std::string& id = state.book().config(i).id;
    const double needed = named.count(id) > 0 ? named_to_chance : named_from_chance;
    if (holds_for(AlertEvent::rain_expected, *state.day_of(i)) &&
        outlook->fields[i]->chance_at_capacity_48h >= needed)
      ids.insert(id);
  }
  return ids;
}

bool AlertWatch::look(const FarmState& state, Instant now, const FarmOutlook* outlook) {
  bool any = false;
  for (const AlertEvent event : events) {
    const AlertBook::Changes changes =
        book_.look(event,
                   event == AlertEvent::rain_expected ? filling_soon(state, outlook)
                                                      : members_of(event, state, now),
                   now);
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

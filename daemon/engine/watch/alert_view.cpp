#include "daemon/engine/watch/alert_view.hpp"

#include <set>

#include "daemon/board/words/plain_words.hpp"
#include "daemon/farm/with_id.hpp"

namespace gley::daemon {

namespace {

/// Ids and names of the fields that an alert speaks of: its own, or those that trust its stations
/// first.
void name_fields(AlertView& view, AlertEvent event, const std::set<std::string>& keys,
                 const FarmConfig& farm) {
  for (const FieldConfig& field : farm.fields) {
    const std::string& key = is_of_stations(event) ? field.stations.front() : field.id;
    if (keys.count(key) == 0) continue;
    view.fields.push_back(field.id);
    view.field_names.push_back(field.name);
  }
}

void put_words(AlertView& view, const AlertWords& words) {
  view.event = words.event;
  view.severity = words.severity;
  view.urgency = words.urgency;
  view.certainty = words.certainty;
  view.description = words.description;
  view.instruction = words.instruction;
}

}  // namespace

AlertView alert_view(const Alert& alert, const FarmConfig& farm) {
  const AlertWords& words = words_of(alert.event);
  AlertView view;
  view.id = alert.id;
  view.onset = alert.onset;
  view.ended = alert.ended;
  put_words(view, words);
  // One that ended holds for nothing any more; it is remembered by all it held for.
  const std::set<std::string> keys =
      alert.ended ? std::set<std::string>(alert.members.begin(), alert.members.end())
                  : alert.active;
  name_fields(view, alert.event, keys, farm);
  view.headline = words.headline;
  if (!alert.subject.empty()) view.headline += " for " + name_of(farm.machines, alert.subject);
  view.headline += is_of_stations(alert.event) ? " from " + joined({keys.begin(), keys.end()}, ", ")
                                               : ": " + joined(view.field_names, ", ");
  return view;
}

AlertView past_alert_view(const StoredAlert& stored, const FarmConfig& farm) {
  AlertView view;
  view.id = stored.id;
  view.event = stored.event;
  view.severity = stored.severity;
  if (const auto event = alert_event_from(stored.event)) {
    put_words(view, words_of(*event));
    name_fields(view, *event, {stored.fields.begin(), stored.fields.end()}, farm);
  } else {
    view.fields = stored.fields;
    view.field_names = stored.fields;
  }
  view.onset = stored.onset;
  view.ended = stored.ended;
  view.headline = stored.headline;
  view.seen_by = stored.seen_by.value_or("");
  view.seen = stored.seen;
  return view;
}

}  // namespace gley::daemon

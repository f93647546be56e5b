#include "daemon/alerts/alert_round.hpp"

namespace gley::daemon {

namespace {

void add(std::vector<std::string>& all, const std::vector<std::string>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

HeldTopics held_topics(const std::vector<FieldMoment>& fields, const AlertBook& book, Instant now,
                       const AlertLimits& limits) {
  HeldTopics held;
  for (const FieldMoment& field : fields) {
    for (const AlertEvent event : alert_events) {
      if (is_of_stations(event)) continue;
      if (is_of_windows(event)) {
        for (const MachineMoment& machine : field.machines)
          if (holds(event, machine, now, limits)) held[{event, machine.machine}].insert(field.id);
      } else if (holds(event, field, limits, book.names({event, {}}, field.id))) {
        held[{event, ""}].insert(field.id);
      }
    }
  }
  return held;
}

AlertBook::Changes take_round(AlertBook& book, const HeldTopics& held, Instant now) {
  HeldTopics all = held;
  // What stands and holds for nothing any more has to be told so.
  for (const Alert& alert : book.open()) all[{alert.event, alert.subject}];
  AlertBook::Changes changes;
  for (const auto& [topic, ids] : all) {
    const AlertBook::Changes own = book.look({topic.first, topic.second}, ids, now);
    add(changes.begun, own.begun);
    add(changes.changed, own.changed);
    add(changes.ended, own.ended);
  }
  return changes;
}

}  // namespace gley::daemon

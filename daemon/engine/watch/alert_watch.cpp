#include "daemon/engine/watch/alert_watch.hpp"

#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/engine/watch/alert_view.hpp"
#include "daemon/engine/watch/doubt_view.hpp"
#include "daemon/engine/watch/field_moments.hpp"
#include "daemon/store/store_error.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

/// How long readings without a time are named after they came.
constexpr std::chrono::hours time_unknown_is_named{24};

constexpr std::chrono::days past_is_shown{60};
constexpr int most_past_alerts = 200;
constexpr std::chrono::hours past_is_read_again{1};

std::set<std::string> timeless_stations(const FarmState& state, Instant now) {
  std::set<std::string> stations;
  for (const auto& [station, received] : state.keeper().time_unknown())
    if (now - received < time_unknown_is_named) stations.insert(station);
  return stations;
}

AlertLimits limits_of(const FarmConfig& farm) {
  AlertLimits limits;
  limits.notice = std::chrono::hours{farm.alerts.notice_h};
  if (farm.forecast) limits.heavy_rain_mm = farm.forecast->heavy_rain_mm;
  return limits;
}

std::optional<Alert> taken_up(const StoredAlert& stored) {
  const std::optional<AlertEvent> event = alert_event_from(stored.event);
  if (!event) return {};
  Alert alert;
  alert.id = stored.id;
  alert.event = *event;
  alert.subject = stored.subject;
  alert.members = stored.fields;
  alert.active.insert(stored.active.begin(), stored.active.end());
  alert.onset = stored.onset;
  return alert;
}

}  // namespace

AlertWatch::AlertWatch(Database& database)
    : store_(database),
      book_({.is_taken = [this](const std::string& id) { return store_.find(id).has_value(); },
             .once_a_day = false}) {
  std::vector<Alert> open;
  for (const StoredAlert& stored : store_.open())
    if (auto alert = taken_up(stored)) open.push_back(std::move(*alert));
  book_.restore(std::move(open));
}

void AlertWatch::keep(const Alert& alert, const FarmConfig& farm) {
  const AlertView view = alert_view(alert, farm);
  store_.put({.id = alert.id,
              .event = view.event,
              .subject = alert.subject,
              .fields = alert.members,
              .active = {alert.active.begin(), alert.active.end()},
              .severity = view.severity,
              .onset = alert.onset,
              .ended = alert.ended,
              .headline = view.headline,
              .seen_by = {},
              .seen = {}});
}

/// What the disk has no room for is kept at a later look.
void AlertWatch::keep_all(const FarmConfig& farm) {
  try {
    while (!unkept_.empty()) {
      keep(unkept_.begin()->second, farm);
      unkept_.erase(unkept_.begin());
    }
  } catch (const StoreError& error) {
    if (!error.may_pass()) throw;
  }
}

void AlertWatch::look(const FarmState& state, Instant now, const FarmOutlook* outlook,
                      const ToldDesk& told) {
  recent_.look(state, told.reports());
  const WorkingHours hours(state.farm());
  HeldTopics held =
      held_topics(field_moments({state, outlook, recent_, hours, told.dressings()}, now), book_,
                  now, limits_of(state.farm()));
  held[{AlertEvent::station_silent, ""}] = silent_stations(state, now);
  held[{AlertEvent::time_unknown, ""}] = timeless_stations(state, now);
  for (const AlertEvent event : alert_events)
    if (is_of_quality(event)) held[{event, ""}] = stations_doubted(event, state, now);
  const AlertBook::Changes changes = take_round(book_, held, now);
  for (const auto* ids : {&changes.begun, &changes.changed})
    for (const std::string& id : *ids)
      if (const Alert* alert = book_.find_open(id)) unkept_.insert_or_assign(id, *alert);
  for (Alert& alert : book_.take_ended()) {
    ended_.push_back(alert.id);
    unkept_.insert_or_assign(alert.id, std::move(alert));
  }
  keep_all(state.farm());
  seen_ = seen_in_store();
  const bool past_is_old =
      past_of_ != &state.farm() || now < past_read_ || now - past_read_ >= past_is_read_again;
  if (!changes.ended.empty() || past_is_old) read_past(state.farm(), now);
}

void AlertWatch::read_past(const FarmConfig& farm, Instant now) {
  auto past = std::make_shared<std::vector<AlertView>>();
  for (const StoredAlert& stored : store_.ended_since(now - past_is_shown, most_past_alerts))
    past->push_back(past_alert_view(stored, farm));
  past_ = std::move(past);
  past_of_ = &farm;
  past_read_ = now;
}

AlertWatch::Seen AlertWatch::seen_in_store() {
  Seen seen;
  if (book_.open().empty()) return seen;
  for (const StoredAlert& stored : store_.open())
    if (stored.seen_by && stored.seen)
      seen.emplace(stored.id, std::pair(*stored.seen_by, *stored.seen));
  return seen;
}

void AlertWatch::show_seen(std::vector<AlertView>& alerts) const {
  for (AlertView& alert : alerts) {
    const auto own = seen_.find(alert.id);
    if (own == seen_.end()) continue;
    alert.seen_by = own->second.first;
    alert.seen = own->second.second;
  }
}

Response AlertWatch::see(const std::string& id, const std::string& name, Instant now) {
  store_.mark_seen(id, name, now);
  const std::optional<StoredAlert> alert = store_.find(id);
  if (!alert) return json_refusal(404, "there is no alert of this id");
  // One that has ended is read again too.
  past_of_ = nullptr;
  const nlohmann::ordered_json out{{"id", id},
                                   {"seen_by", alert->seen_by.value_or("")},
                                   {"seen", rfc3339(alert->seen.value_or(now))}};
  return {.status = 200, .content_type = "application/json", .body = json_text(out)};
}

}  // namespace gley::daemon

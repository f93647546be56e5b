#include "daemon/alerts/alert_book.hpp"

#include <algorithm>
#include <utility>

#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::hours joining_time{24};

std::string slug(std::string_view word) {
  std::string out(word);
  std::replace(out.begin(), out.end(), ' ', '-');
  return out;
}

std::string stamp(Instant instant) {
  const auto day = std::chrono::floor<std::chrono::days>(instant);
  const auto minutes = std::chrono::floor<std::chrono::minutes>(instant - day).count();
  const auto two = [](long n) { return std::string(n < 10 ? "0" : "") + std::to_string(n); };
  return date_text(day) + "t" + two(minutes / 60) + two(minutes % 60) + "z";
}

bool is_of(const Alert& alert, const AlertBook::Topic& topic) {
  return alert.event == topic.event && alert.subject == topic.subject;
}

void add_once(std::vector<std::string>& ids, const std::string& id) {
  if (std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(id);
}

}  // namespace

std::string AlertBook::id_for(const Topic& topic, Instant now) {
  const std::string minute = stamp(now);
  const std::string base = slug(words_of(topic.event).event) +
                           (topic.subject.empty() ? "" : "-" + topic.subject) + "-" + minute;
  std::erase_if(given_, [&](const auto& entry) { return !entry.first.ends_with(minute); });
  std::string id;
  do {
    const int count = ++given_[base];
    id = count == 1 ? base : base + "-" + std::to_string(count);
  } while (ways_.is_taken && ways_.is_taken(id));
  return id;
}

void AlertBook::begin(const Topic& topic, std::set<std::string> ids, Instant now,
                      Changes& changes) {
  Alert alert;
  alert.id = id_for(topic, now);
  alert.event = topic.event;
  alert.subject = topic.subject;
  alert.members.assign(ids.begin(), ids.end());
  alert.active = std::move(ids);
  alert.onset = now;
  changes.begun.push_back(alert.id);
  open_.push_back(std::move(alert));
}

/// Lets go of the ids for which it has not held for long enough; tells whether there were any.
bool AlertBook::drop_ceased(Alert& alert, const std::set<std::string>& holds_for,
                            Instant now) const {
  const std::chrono::hours lingers =
      ways_.once_a_day ? std::chrono::hours{0} : words_of(alert.event).lingers;
  for (const std::string& id : holds_for) alert.ceased.erase(id);
  return std::erase_if(alert.active, [&](const std::string& id) {
           if (holds_for.count(id) > 0) return false;
           const Instant since = alert.ceased.emplace(id, now).first->second;
           if (now - since < lingers) return false;
           alert.ceased.erase(id);
           return true;
         }) > 0;
}

void AlertBook::end_empty(const Topic& topic, Instant now, Changes& changes) {
  for (auto alert = open_.begin(); alert != open_.end();) {
    if (!is_of(*alert, topic) || !alert->active.empty()) {
      ++alert;
      continue;
    }
    alert->ended = now;
    changes.ended.push_back(alert->id);
    std::erase(changes.changed, alert->id);
    ended_.push_back(std::move(*alert));
    alert = open_.erase(alert);
  }
}

AlertBook::Changes AlertBook::look(const Topic& topic, const std::set<std::string>& holds_for,
                                   Instant now) {
  Changes changes;
  std::set<std::string> unplaced = holds_for;
  Alert* joinable = nullptr;
  for (Alert& alert : open_) {
    if (!is_of(alert, topic)) continue;
    if (drop_ceased(alert, holds_for, now)) changes.changed.push_back(alert.id);
    for (const std::string& id : alert.active) unplaced.erase(id);
    if (now - alert.onset < joining_time && !alert.active.empty()) joinable = &alert;
  }
  if (!unplaced.empty() && joinable != nullptr) {
    for (const std::string& id : unplaced) {
      add_once(joinable->members, id);
      joinable->active.insert(id);
    }
    add_once(changes.changed, joinable->id);
  } else if (!unplaced.empty()) {
    begin(topic, std::move(unplaced), now, changes);
  }
  end_empty(topic, now, changes);
  return changes;
}

bool AlertBook::names(const Topic& topic, const std::string& id) const {
  return std::any_of(open_.begin(), open_.end(), [&](const Alert& alert) {
    return is_of(alert, topic) && alert.active.count(id) > 0;
  });
}

const Alert* AlertBook::find_open(const std::string& id) const {
  for (const Alert& alert : open_)
    if (alert.id == id) return &alert;
  return nullptr;
}

std::vector<Alert> AlertBook::take_ended() {
  return std::exchange(ended_, {});
}

}  // namespace gley::daemon

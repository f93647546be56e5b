#include "daemon/alerts/alert_book.hpp"

#include <algorithm>
#include <utility>

#include "daemon/readings/date_text.hpp"

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

/// Keeps of `ids` those in `holds_for`; tells whether any was dropped.
bool keep_only(std::set<std::string>& ids, const std::set<std::string>& holds_for) {
  return std::erase_if(ids, [&](const std::string& id) { return holds_for.count(id) == 0; }) > 0;
}

}  // namespace

std::string AlertBook::id_for(AlertEvent event, Instant now) {
  const std::string minute = stamp(now);
  const std::string base = slug(words_of(event).event) + "-" + minute;
  std::erase_if(given_, [&](const auto& entry) { return !entry.first.ends_with(minute); });
  const int count = ++given_[base];
  std::string id = count == 1 ? base : base + "-" + std::to_string(count);
  return id;
}

void AlertBook::begin(AlertEvent event, std::set<std::string> ids, Instant now, Changes& changes) {
  Alert alert;
  alert.id = id_for(event, now);
  alert.event = event;
  alert.members.assign(ids.begin(), ids.end());
  alert.active = std::move(ids);
  alert.onset = now;
  changes.begun.push_back(alert.id);
  open_.push_back(std::move(alert));
}

AlertBook::Changes AlertBook::look(AlertEvent event, const std::set<std::string>& holds_for,
                                   Instant now) {
  Changes changes;
  std::set<std::string> unplaced = holds_for;
  Alert* joinable = nullptr;
  for (Alert& alert : open_) {
    if (alert.event != event) continue;
    if (keep_only(alert.active, holds_for)) changes.changed.push_back(alert.id);
    for (const std::string& id : alert.active) unplaced.erase(id);
    if (now - alert.onset < joining_time && !alert.active.empty()) joinable = &alert;
  }
  if (!unplaced.empty() && joinable != nullptr) {
    for (const std::string& id : unplaced) {
      auto& members = joinable->members;
      if (std::find(members.begin(), members.end(), id) == members.end()) members.push_back(id);
      joinable->active.insert(id);
    }
    if (std::find(changes.changed.begin(), changes.changed.end(), joinable->id) ==
        changes.changed.end())
      changes.changed.push_back(joinable->id);
  } else if (!unplaced.empty()) {
    begin(event, std::move(unplaced), now, changes);
  }
  for (auto alert = open_.begin(); alert != open_.end();) {
    if (alert->event != event || !alert->active.empty()) {
      ++alert;
      continue;
    }
    alert->ended = now;
    changes.ended.push_back(alert->id);
    std::erase(changes.changed, alert->id);
    ended_.push_back(std::move(*alert));
    alert = open_.erase(alert);
  }
  return changes;
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

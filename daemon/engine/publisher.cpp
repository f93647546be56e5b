#include "daemon/engine/publisher.hpp"

#include <algorithm>

namespace gley::daemon {

namespace {
constexpr std::chrono::seconds between_messages{1};
}

void Publisher::send_if_due(const std::string& name, Topic& topic, Instant now) {
  // A clock stepped back must not silence a topic until it has caught up.
  const bool early = now < topic.sent + between_messages && now >= topic.sent;
  if (!topic.waits || early || !send_(name, topic.body)) return;
  topic.waits = false;
  topic.sent = now;
}

void Publisher::offer(const std::string& topic, std::string body, std::string matter, Instant now) {
  Topic& own = topics_[topic];
  own.meant = true;
  if (own.matter == matter && !own.withdrawn) {
    send_if_due(topic, own, now);
    return;
  }
  own.body = std::move(body);
  own.matter = std::move(matter);
  own.waits = true;
  own.withdrawn = false;
  send_if_due(topic, own, now);
}

void Publisher::keep(const std::string& topic) {
  const auto own = topics_.find(topic);
  if (own != topics_.end()) own->second.meant = true;
}

void Publisher::begin_round() {
  for (auto& [name, topic] : topics_) topic.meant = false;
}

void Publisher::withdraw_others(Instant now) {
  for (auto& [name, topic] : topics_) {
    if (!topic.meant) withdraw(name, now);
    topic.meant = false;
  }
}

void Publisher::withdraw(const std::string& topic, Instant now) {
  Topic& own = topics_[topic];
  if (own.withdrawn) return;
  own.body.clear();
  own.matter.clear();
  own.waits = true;
  own.withdrawn = true;
  send_if_due(topic, own, now);
}

void Publisher::flush(Instant now) {
  for (auto& [name, topic] : topics_) send_if_due(name, topic, now);
  std::erase_if(topics_,
                [](const auto& entry) { return entry.second.withdrawn && !entry.second.waits; });
}

void Publisher::send_all_again(Instant now) {
  for (auto& [name, topic] : topics_) {
    topic.waits = true;
    topic.sent = Instant{};
  }
  flush(now);
}

std::size_t Publisher::waiting() const {
  return static_cast<std::size_t>(std::count_if(
      topics_.begin(), topics_.end(), [](const auto& entry) { return entry.second.waits; }));
}

std::string without_time(const std::string& json) {
  static const std::string key = "\"time\":\"";
  const std::size_t at = json.find(key);
  if (at == std::string::npos) return json;
  const std::size_t end = json.find('"', at + key.size());
  return json.substr(0, at) + json.substr(end);
}

}  // namespace gley::daemon

#include "daemon/engine/run/publisher.hpp"

#include <utility>

namespace gley::daemon {

namespace {
constexpr std::chrono::seconds between_messages{1};
}

Publisher::Topic& Publisher::entry(const std::string& name) {
  const auto [place, is_new] = topics_.try_emplace(name);
  if (is_new) ++revision_;
  return place->second;
}

std::vector<std::string> Publisher::topics_out() const {
  std::vector<std::string> names;
  for (const auto& [name, topic] : topics_)
    if (!topic.withdrawn) names.push_back(name);
  return names;
}

/// False if the body says nothing new.
bool Publisher::take(Topic& topic, std::string body) {
  if (!topic.withdrawn && without_time(body) == without_time(topic.body)) return false;
  topic.body = std::move(body);
  topic.withdrawn = false;
  return true;
}

/// Writes what was offered late; false if that says nothing new.
bool Publisher::is_news(Topic& topic) {
  const Write write = std::exchange(topic.write, {});
  return !write || take(topic, write());
}

void Publisher::send_if_due(const std::string& name, Topic& topic, Instant now) {
  // A clock stepped back must not silence a topic until it has caught up.
  const bool early = now < topic.sent + between_messages && now >= topic.sent;
  if (early || !waiting_.contains(name)) return;
  if (is_news(topic)) send_(name, topic.body);
  waiting_.erase(name);
  topic.sent = now;
}

void Publisher::offer_late(const std::string& topic, Write write) {
  Topic& own = entry(topic);
  own.meant = true;
  own.write = std::move(write);
  waiting_.insert(topic);
}

void Publisher::offer(const std::string& topic, std::string body, Instant now) {
  Topic& own = entry(topic);
  own.meant = true;
  if (take(own, std::move(body))) waiting_.insert(topic);
  send_if_due(topic, own, now);
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
  Topic& own = entry(topic);
  if (own.withdrawn) return;
  own.body.clear();
  own.write = {};
  own.withdrawn = true;
  waiting_.insert(topic);
  send_if_due(topic, own, now);
}

void Publisher::flush(Instant now) {
  for (const std::string& name : std::set(waiting_)) send_if_due(name, topics_[name], now);
  revision_ += std::erase_if(topics_, [this](const auto& own) {
    return own.second.withdrawn && !waiting_.contains(own.first);
  });
}

std::optional<Instant> Publisher::next_due() const {
  std::optional<Instant> first;
  for (const std::string& name : waiting_) {
    const Instant due = topics_.at(name).sent + between_messages;
    if (!first || due < *first) first = due;
  }
  return first;
}

void Publisher::send_all_again(Instant now) {
  for (auto& [name, topic] : topics_) {
    waiting_.insert(name);
    topic.sent = Instant{};
    // What is written later may say the same, and is to go out all the same.
    if (topic.write) topic.body.clear();
  }
  flush(now);
}

std::string without_time(const std::string& json) {
  static const std::string key = "\"time\":\"";
  const std::size_t at = json.find(key);
  if (at == std::string::npos) return json;
  const std::size_t end = json.find('"', at + key.size());
  return json.substr(0, at) + json.substr(end);
}

}  // namespace gley::daemon

#include "daemon/bus/outbox.hpp"

#include <utility>

namespace gley::daemon {

void Outbox::put_at(std::list<Outgoing>::iterator place, Outgoing message) {
  const auto entry = waiting_.insert(place, std::move(message));
  const auto [known, is_new] = by_topic_.try_emplace(entry->topic, entry);
  if (is_new) return;
  waiting_.erase(known->second);
  known->second = entry;
}

void Outbox::put(Outgoing message) {
  put_at(waiting_.end(), std::move(message));
}

void Outbox::put_first(Outgoing message) {
  put_at(waiting_.begin(), std::move(message));
}

void Outbox::put_back(Outgoing message) {
  if (!by_topic_.contains(message.topic)) put_first(std::move(message));
}

void Outbox::remove(const std::string& topic) {
  const auto known = by_topic_.find(topic);
  if (known == by_topic_.end()) return;
  waiting_.erase(known->second);
  by_topic_.erase(known);
}

std::optional<Outgoing> Outbox::take() {
  if (waiting_.empty()) return {};
  Outgoing message = std::move(waiting_.front());
  waiting_.pop_front();
  by_topic_.erase(message.topic);
  return message;
}

}  // namespace gley::daemon

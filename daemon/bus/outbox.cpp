#include "daemon/bus/outbox.hpp"

#include <utility>

namespace gley::daemon {

void Outbox::put(Outgoing message) {
  const auto found = by_topic_.find(message.topic);
  if (found != by_topic_.end()) waiting_.erase(found->second);
  const std::string topic = message.topic;
  by_topic_[topic] = waiting_.insert(waiting_.end(), std::move(message));
}

void Outbox::put_back(Outgoing message) {
  if (by_topic_.contains(message.topic)) return;
  const std::string topic = message.topic;
  by_topic_[topic] = waiting_.insert(waiting_.begin(), std::move(message));
}

std::optional<Outgoing> Outbox::take() {
  if (waiting_.empty()) return {};
  Outgoing message = std::move(waiting_.front());
  waiting_.pop_front();
  by_topic_.erase(message.topic);
  return message;
}

}  // namespace gley::daemon

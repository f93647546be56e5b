#pragma once
#include <cstddef>
#include <list>
#include <optional>
#include <string>
#include <unordered_map>

namespace gley::daemon {

/// A message on its way out.
struct Outgoing {
  std::string topic;
  std::string payload;
  bool retained = true;
  int qos = 1;
};

/// Messages that wait to be sent, in order, one a topic: a newer one takes the place of an older
/// one that has not gone, for only the last state of a topic matters. So it never holds more than
/// there are topics. Not for two threads at once.
class Outbox {
 public:
  void put(Outgoing message);
  /// The same, ahead of all that waits.
  void put_first(Outgoing message);
  /// Puts back what could not be sent, unless a newer message of its topic waits already.
  void put_back(Outgoing message);
  void remove(const std::string& topic);
  [[nodiscard]] std::optional<Outgoing> take();
  [[nodiscard]] std::size_t size() const { return waiting_.size(); }

 private:
  void put_at(std::list<Outgoing>::iterator place, Outgoing message);

  std::list<Outgoing> waiting_;
  std::unordered_map<std::string, std::list<Outgoing>::iterator> by_topic_;
};

}  // namespace gley::daemon

#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// Decides which retained messages go out and when: the first change of a topic at once, then at
/// most one a second; nothing that only repeats what is out. No clock and no network of its own.
/// Owned by one thread.
class Publisher {
 public:
  /// topic below the root, body; an empty body removes the retained message.
  using Send = std::function<void(const std::string& topic, const std::string& body)>;

  explicit Publisher(Send send) : send_(std::move(send)) {}

  /// What should be out on a topic. A body that differs from the one out in nothing but its "time"
  /// is not sent.
  void offer(const std::string& topic, std::string body, Instant now);

  using Write = std::function<std::string()>;
  /// The same for what takes long to write: it is written by `flush`, when it may go.
  void offer_late(const std::string& topic, Write write);

  /// A topic on which an earlier run has left a message.
  void remember(const std::string& topic) { (void)entry(topic); }

  /// What is out is to be offered again from here on, or is withdrawn by `withdraw_others`.
  void begin_round();

  /// Withdraws every topic that was not offered since the round began or the last call.
  void withdraw_others(Instant now);

  /// Nothing shall be out on the topic any more.
  void withdraw(const std::string& topic, Instant now);

  /// Sends what had to wait and may go now.
  void flush(Instant now);

  /// When the first of those that wait may go; none waits: nothing.
  [[nodiscard]] std::optional<Instant> next_due() const;

  /// Forgets what is out: after a reconnect the broker may have lost it.
  void send_all_again(Instant now);

  /// The topics on which something is out, in order; `revision` rises when they become others.
  [[nodiscard]] std::vector<std::string> topics_out() const;
  [[nodiscard]] std::uint64_t revision() const { return revision_; }

 private:
  struct Topic {
    std::string body;
    Write write = {};  ///< of what was offered late, until it is written
    Instant sent{};
    bool withdrawn = false;
    bool meant = false;  ///< offered in this round
  };
  [[nodiscard]] Topic& entry(const std::string& name);
  [[nodiscard]] static bool take(Topic& topic, std::string body);
  [[nodiscard]] static bool is_news(Topic& topic);
  void send_if_due(const std::string& name, Topic& topic, Instant now);

  Send send_;
  std::map<std::string, Topic> topics_;
  std::set<std::string> waiting_;  ///< the few whose change is not out yet
  std::uint64_t revision_ = 0;     ///< of the names in topics_
};

/// A body without its "time": what matters of it.
[[nodiscard]] std::string without_time(const std::string& json);

}  // namespace gley::daemon

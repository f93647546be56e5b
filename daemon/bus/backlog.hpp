#pragma once
#include <chrono>
#include <string>
#include <string_view>

namespace gley::daemon {

/// Knows whether a message that comes now may have waited in the broker while we were away. After a
/// connect it may, until a mark that we publish to ourselves comes back: the broker hands it out
/// behind all that waited. A mark that never comes (a broker may forbid it) is given up after 60 s,
/// at the first pause of a second between messages. Not for two threads at once.
class Backlog {
 public:
  using Moment = std::chrono::steady_clock::time_point;

  /// A connection was made. Marks of earlier connections, which may have waited too, no longer
  /// count.
  void connected(Moment now);
  /// The broker said that it kept no session, so nothing has waited.
  void nothing_waited() { waiting_ = false; }
  /// A mark came back.
  void mark_came(std::string_view mark);
  /// A message came; true if it may have waited.
  [[nodiscard]] bool message_came(Moment now);
  [[nodiscard]] bool waiting() const { return waiting_; }
  /// What to publish once the subscriptions of this connection stand.
  [[nodiscard]] const std::string& mark() const { return mark_; }

 private:
  bool waiting_ = false;
  std::string mark_;
  Moment connected_{};
  Moment last_message_{};
};

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <optional>

namespace gley::daemon {

/// Whether the thread that owns all state keeps turning: it tells each of its turns, one a second.
/// Owned by that thread; so what stands still cannot say so, but it does afterwards.
class Progress {
 public:
  using Time = std::chrono::steady_clock::time_point;

  /// A turn ended. Returns how long the thread stood still before it, if that was too long.
  std::optional<std::chrono::seconds> turned(Time now);

  /// The longest standstill that ended within the last minute; empty if there was none.
  [[nodiscard]] std::optional<std::chrono::seconds> stood_still(Time now) const;

 private:
  std::optional<Time> last_turn_;
  std::optional<std::chrono::seconds> standstill_;
  Time standstill_ended_{};
};

}  // namespace gley::daemon

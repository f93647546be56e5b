#pragma once
#include <chrono>
#include <optional>

namespace gley::daemon {

/// Notices that the wall clock was set, or stood still while the machine slept, by looking at it
/// beside a clock that cannot be set. Owned by one thread.
class ClockWatch {
 public:
  using Wall = std::chrono::time_point<std::chrono::system_clock, std::chrono::milliseconds>;

  /// How far the wall clock went ahead of the time that passed since the last look, or behind it if
  /// negative; empty within what a clock is disciplined by (500 ppm, ntp_adjtime(2)) and 2 s.
  std::optional<std::chrono::milliseconds> look(Wall wall,
                                                std::chrono::steady_clock::time_point steady);

 private:
  std::optional<Wall> wall_;
  std::chrono::steady_clock::time_point steady_{};
};

}  // namespace gley::daemon

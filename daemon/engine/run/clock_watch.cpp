#include "daemon/engine/run/clock_watch.hpp"

namespace gley::daemon {

std::optional<std::chrono::milliseconds> ClockWatch::look(
    Wall wall, std::chrono::steady_clock::time_point steady) {
  using std::chrono::milliseconds;
  constexpr milliseconds allowed{2000};
  constexpr long disciplined_per_s = 2000;  // 500 ppm
  const auto passed = std::chrono::duration_cast<milliseconds>(steady - steady_);
  const milliseconds step = wall - wall_.value_or(wall) - (wall_ ? passed : milliseconds{0});
  wall_ = wall;
  steady_ = steady;
  if (std::chrono::abs(step) <= allowed + passed / disciplined_per_s) return {};
  return step;
}

}  // namespace gley::daemon

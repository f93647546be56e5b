#pragma once
#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// The machine's clock. What a test is to set is handed in instead, as a function.
[[nodiscard]] inline Instant wall_clock() {
  return std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now());
}

}  // namespace gley::daemon

#pragma once
#include <cstdint>

namespace gley::tests {

/// What the preloaded library reads before every call it stands in for.
struct FaultPage {
  std::int64_t disk_full = 0;         ///< not 0: no write to the store succeeds
  std::int64_t clock_ahead_s = 0;     ///< added to the wall clock; steady clocks run on
  std::int64_t failed_publishes = 0;  ///< so many MQTT PUBLISH packets in all cannot be written
};

}  // namespace gley::tests

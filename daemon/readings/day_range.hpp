#pragma once
#include <chrono>
#include <optional>

namespace gley::daemon {

/// The days asked for, both ends included; an end left out is open.
struct DayRange {
  std::optional<std::chrono::sys_days> from;
  std::optional<std::chrono::sys_days> to;

  friend bool operator==(const DayRange&, const DayRange&) = default;
};

}  // namespace gley::daemon

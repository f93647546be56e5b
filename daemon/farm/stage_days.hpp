#pragma once

namespace gley::daemon {

/// Lengths of the four growth stages of FAO-56, days.
struct StageDays {
  int ini = 0;
  int dev = 0;
  int mid = 0;
  int late = 0;

  [[nodiscard]] int total() const { return ini + dev + mid + late; }
  friend bool operator==(const StageDays&, const StageDays&) = default;
};

}  // namespace gley::daemon

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

/// The same in warmth: degree-days over a base temperature.
struct StageDayDegrees {
  double base_c = 0.0;
  double ini = 0.0;
  double dev = 0.0;
  double mid = 0.0;
  double late = 0.0;
};

}  // namespace gley::daemon

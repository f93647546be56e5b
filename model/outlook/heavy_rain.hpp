#pragma once
#include <optional>
#include <span>
#include <vector>

namespace gley::model {

struct HoursAhead {
  double from_h = 0.0;
  double until_h = 0.0;
};

/// Rain to come in one step, by member.
struct RainAhead {
  HoursAhead time;
  std::span<const double> by_member_mm;
};

struct HeavyRain {
  double chance = 0.0;                  ///< 0..1
  std::optional<double> in_hours = {};  ///< when it may begin; absent: in no member
};

/// Hours until at least half of the members have had `amount_mm`; absent: never in what is told.
[[nodiscard]] std::optional<double> hours_until_rain(std::span<const RainAhead> steps,
                                                     double amount_mm);

/// Chance that within 48 h a day's worth of rain, any 24 h, comes to `heavy_mm`, and when the first
/// rain of it falls: the middle one of the members that have it. `steps` in order of time.
[[nodiscard]] HeavyRain heavy_rain_within_48h(std::span<const RainAhead> steps, double heavy_mm);

/// By member: whether any 24 h within `when` bring it `heavy_mm`. `steps` in order of time.
[[nodiscard]] std::vector<bool> brings_heavy_rain(std::span<const RainAhead> steps,
                                                  const HoursAhead& when, double heavy_mm);

}  // namespace gley::model

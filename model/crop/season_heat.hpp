#pragma once
#include <chrono>
#include <optional>

#include "model/crop/coefficients.hpp"
#include "model/weather/vapour_pressure.hpp"

namespace gley::model {

/// Lengths of the four growth stages in warmth instead of days, degree-days over a base.
struct HeatStages {
  double base_c = 0.0;
  double initial_c_d = 0.0;
  double development_c_d = 0.0;
  double mid_season_c_d = 0.0;
  double late_season_c_d = 0.0;
};

/// Warmth a stand has had since it was sown.
struct SeasonHeat {
  std::optional<std::chrono::sys_days> sown = {};  ///< none: the stand does not count warmth
  double day_degrees_c_d = 0.0;

  friend bool operator==(const SeasonHeat&, const SeasonHeat&) = default;
};

/// What one day adds: its mean temperature over the base, nothing below it.
/// Source: McMaster and Wilhelm (1997), Agric. For. Meteorol. 87:291-300, method 1 (from memory).
[[nodiscard]] double warmth_of_day_c_d(const TemperatureRange& day, double base_c) noexcept;

/// Where a stand of so much warmth is in a season counted in days: stage by stage, even within
/// each. After the last stage, the season's last day.
/// Check: none printed; by hand: 150 of stages 100, 200, 300, 100 with days 10, 20, 30, 10 -> 15.
[[nodiscard]] double day_by_heat(const HeatStages& heat, const StageLengths& days,
                                 double day_degrees_c_d) noexcept;

/// The other way round: the warmth that a stand usually has had by a day of its season.
[[nodiscard]] double heat_by_day(const HeatStages& heat, const StageLengths& days,
                                 double day_of_season) noexcept;

}  // namespace gley::model

#include "model/crop/season_heat.hpp"

#include <array>

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

using Stages = std::array<double, 4>;

Stages stages_of(const HeatStages& heat) {
  return {heat.initial_c_d, heat.development_c_d, heat.mid_season_c_d, heat.late_season_c_d};
}

Stages stages_of(const StageLengths& days) {
  return {static_cast<double>(days.initial_d), static_cast<double>(days.development_d),
          static_cast<double>(days.mid_season_d), static_cast<double>(days.late_season_d)};
}

/// A place along the stages of one measure, in the other.
double carried_over(const Stages& from, const Stages& to, double place) {
  double there = 0.0;
  for (std::size_t stage = 0; stage < from.size(); ++stage) {
    if (place < from[stage]) return there + to[stage] * greatest(0.0, place) / from[stage];
    place -= from[stage];
    there += to[stage];
  }
  return there;
}

}  // namespace

double warmth_of_day_c_d(const TemperatureRange& day, double base_c) noexcept {
  return greatest(0.0, mean_temperature_c(day) - base_c);
}

double day_by_heat(const HeatStages& heat, const StageLengths& days,
                   double day_degrees_c_d) noexcept {
  return carried_over(stages_of(heat), stages_of(days), day_degrees_c_d);
}

double heat_by_day(const HeatStages& heat, const StageLengths& days,
                   double day_of_season) noexcept {
  return carried_over(stages_of(days), stages_of(heat), day_of_season);
}

}  // namespace gley::model

#include "model/outlook/heavy_rain.hpp"

#include <algorithm>
#include <vector>

#include "model/numeric/elementary.hpp"
#include "model/outlook/chance.hpp"

namespace gley::model {

namespace {

constexpr double horizon_h = 48.0;
constexpr double spell_h = 24.0;

/// What of a step falls within the horizon, mm.
double within_horizon_mm(const RainAhead& step, std::size_t member) {
  const double whole_mm = step.by_member_mm[member];
  if (step.until_h <= horizon_h) return whole_mm;
  const double share = (horizon_h - step.from_h) / (step.until_h - step.from_h);
  return whole_mm * held_between(0.0, share, 1.0);
}

/// When a member's heavy spell begins, if it has one.
std::optional<double> spell_begins_h(std::span<const RainAhead> steps, std::size_t member,
                                     double heavy_mm) {
  for (std::size_t first = 0; first < steps.size(); ++first) {
    if (within_horizon_mm(steps[first], member) <= 0.0) continue;
    double sum_mm = 0.0;
    for (std::size_t s = first; s < steps.size(); ++s) {
      // A step longer than a spell is one in itself.
      if (s > first && steps[s].until_h > steps[first].from_h + spell_h) break;
      sum_mm += within_horizon_mm(steps[s], member);
    }
    if (sum_mm >= heavy_mm) return steps[first].from_h;
  }
  return {};
}

}  // namespace

std::optional<double> hours_until_rain(std::span<const RainAhead> steps, double amount_mm) {
  const std::size_t members = steps.empty() ? 0 : steps.front().by_member_mm.size();
  std::vector<double> fallen_mm(members, 0.0);
  for (const RainAhead& step : steps) {
    std::size_t wet = 0;
    for (std::size_t m = 0; m < members; ++m) {
      fallen_mm[m] += step.by_member_mm[m];
      wet += fallen_mm[m] >= amount_mm ? 1 : 0;
    }
    if (wet > 0 && 2 * wet >= members) return greatest(0.0, step.from_h);
  }
  return {};
}

HeavyRain heavy_rain_within_48h(std::span<const RainAhead> steps, double heavy_mm) {
  const std::size_t members = steps.empty() ? 0 : steps.front().by_member_mm.size();
  std::vector<double> begins_h;
  for (std::size_t m = 0; m < members; ++m)
    if (const auto begins = spell_begins_h(steps, m, heavy_mm)) begins_h.push_back(*begins);
  HeavyRain out{.chance = chance_of({.happened = begins_h.size(), .members = members})};
  if (begins_h.empty()) return out;
  std::sort(begins_h.begin(), begins_h.end());
  out.in_hours = begins_h[begins_h.size() / 2];
  return out;
}

}  // namespace gley::model

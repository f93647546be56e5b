#include "model/outlook/heavy_rain.hpp"

#include <algorithm>
#include <limits>
#include <vector>

#include "model/numeric/elementary.hpp"
#include "model/outlook/chance.hpp"

namespace gley::model {

namespace {

constexpr double spell_h = 24.0;

std::size_t members_of(std::span<const RainAhead> steps) {
  return steps.empty() ? 0 : steps.front().by_member_mm.size();
}

/// What of a step falls within `when`, mm.
double within_mm(const HoursAhead& when, const RainAhead& step, std::size_t member) {
  const double whole_mm = step.by_member_mm[member];
  const double from_h = greatest(when.from_h, step.time.from_h);
  const double until_h = least(when.until_h, step.time.until_h);
  if (from_h == step.time.from_h && until_h == step.time.until_h) return whole_mm;
  if (until_h <= from_h) return 0.0;
  return whole_mm * (until_h - from_h) / (step.time.until_h - step.time.from_h);
}

/// When a member's heavy spell within `when` begins, if it has one.
std::optional<double> spell_begins_h(std::span<const RainAhead> steps, std::size_t member,
                                     const HoursAhead& when, double heavy_mm) {
  for (std::size_t first = 0; first < steps.size(); ++first) {
    if (within_mm(when, steps[first], member) <= 0.0) continue;
    double sum_mm = 0.0;
    for (std::size_t s = first; s < steps.size(); ++s) {
      // A step longer than a spell is one in itself.
      if (s > first && steps[s].time.until_h > steps[first].time.from_h + spell_h) break;
      sum_mm += within_mm(when, steps[s], member);
    }
    if (sum_mm >= heavy_mm) return steps[first].time.from_h;
  }
  return {};
}

}  // namespace

std::optional<double> hours_until_rain(std::span<const RainAhead> steps, double amount_mm) {
  const std::size_t members = members_of(steps);
  std::vector<double> fallen_mm(members, 0.0);
  for (const RainAhead& step : steps) {
    std::size_t wet = 0;
    for (std::size_t m = 0; m < members; ++m) {
      fallen_mm[m] += step.by_member_mm[m];
      wet += fallen_mm[m] >= amount_mm ? 1 : 0;
    }
    if (wet > 0 && 2 * wet >= members) return greatest(0.0, step.time.from_h);
  }
  return {};
}

HeavyRain heavy_rain_within_48h(std::span<const RainAhead> steps, double heavy_mm) {
  // A step that has begun counts whole, as it is told.
  constexpr HoursAhead when{.from_h = -std::numeric_limits<double>::infinity(), .until_h = 48.0};
  const std::size_t members = members_of(steps);
  std::vector<double> begins_h;
  for (std::size_t m = 0; m < members; ++m)
    if (const auto begins = spell_begins_h(steps, m, when, heavy_mm)) begins_h.push_back(*begins);
  HeavyRain out{.chance = chance_of({.happened = begins_h.size(), .members = members})};
  if (begins_h.empty()) return out;
  std::sort(begins_h.begin(), begins_h.end());
  out.in_hours = begins_h[begins_h.size() / 2];
  return out;
}

std::vector<bool> brings_heavy_rain(std::span<const RainAhead> steps, const HoursAhead& when,
                                    double heavy_mm) {
  std::vector<bool> by_member;
  for (std::size_t m = 0; m < members_of(steps); ++m)
    by_member.push_back(spell_begins_h(steps, m, when, heavy_mm).has_value());
  return by_member;
}

}  // namespace gley::model

#include "model/outlook/members.hpp"

#include <algorithm>
#include <array>

#include "model/numeric/elementary.hpp"
#include "model/outlook/normal_quantile.hpp"

namespace gley::model {

namespace {

constexpr double stated_weight = 10.0;  // pairs that the stated warmth counts for beside the own
constexpr int stated_values = 40;
constexpr std::size_t enough_in_a_bin = 10;
constexpr std::size_t bins = 6;

std::size_t bin_of(double forecast_mm) {
  constexpr std::array upper_mm{dry_day_mm, 1.0, 5.0, 10.0, 20.0};
  std::size_t bin = 0;
  while (bin < upper_mm.size() && forecast_mm >= upper_mm[bin]) ++bin;
  return bin;
}

/// The pairs of the forecast's bin, and of those beside it while they are few.
std::vector<RainPair> alike(double forecast_mm, const std::vector<RainPair>& pairs) {
  const std::size_t bin = bin_of(forecast_mm);
  std::vector<RainPair> found;
  for (std::size_t reach = 0; reach < bins && found.size() < enough_in_a_bin; ++reach) {
    found.clear();
    for (const RainPair& pair : pairs) {
      const std::size_t own = bin_of(pair.forecast_mm);
      if (std::max(own, bin) - std::min(own, bin) <= reach) found.push_back(pair);
    }
  }
  return found;
}

/// What would fall now if the forecast erred as it did then.
double carried_over_mm(const RainPair& pair, double forecast_mm) {
  constexpr double proportional_from_mm = 1.0;
  if (forecast_mm < proportional_from_mm || pair.forecast_mm < proportional_from_mm)
    return pair.observed_mm;
  return pair.observed_mm * (forecast_mm / pair.forecast_mm);
}

constexpr double rain_day_mm = 1.0;

struct Group {
  double pairs = 0.0;
  double wet = 0.0;
};

double stated_after_dry_mm(double p, double lead) {
  constexpr double mean_mm = 2.0;
  const double dry = 1.0 - least(0.35, 0.08 + 0.03 * lead);
  if (p <= dry) return 0.0;
  return -mean_mm * natural_logarithm(1.0 - (p - dry) / (1.0 - dry));
}

double stated_after_wet_mm(double p, double lead, double forecast_mm) {
  const double dry = (0.05 + 0.03 * lead) * exponential(-forecast_mm / 4.0);
  if (p <= dry) return 0.0;
  const double spread = 0.5 + 0.08 * lead;
  const double z = normal_quantile((p - dry) / (1.0 - dry));
  return forecast_mm / (1.0 - dry) * exponential(spread * z - spread * spread / 2.0);
}

double stated_mm(double p, std::size_t lead_days, double forecast_mm) {
  const auto lead = static_cast<double>(lead_days);
  return forecast_mm < dry_day_mm ? stated_after_dry_mm(p, lead)
                                  : stated_after_wet_mm(p, lead, forecast_mm);
}

/// Middle of the i-th of n equal parts of 0..1.
double middle_of(std::size_t i, std::size_t n) {
  return (static_cast<double>(i) + 0.5) / static_cast<double>(n);
}

/// Ranks of the members on one day: m -> (m + 1) a mod 31, less 1, which takes every rank once.
constexpr std::size_t lattice_size = made_members + 1;
constexpr std::size_t generator =
    12;  // a primitive root of 31 near 31 over the golden ratio squared
constexpr std::size_t warmth_ahead = 8;

std::size_t multiplier(std::size_t step) {
  std::size_t power = 1;
  for (std::size_t i = 0; i < step; ++i) power = power * generator % lattice_size;
  return power;
}

double rank_of(std::size_t member, std::size_t step) {
  const std::size_t rank = (member + 1) * multiplier(step) % lattice_size - 1;
  return middle_of(rank, made_members);
}

}  // namespace

RainSpread::RainSpread(double forecast_mm, std::size_t lead_days, const LeadErrors& errors) {
  if (errors.rain.size() < pairs_needed) {
    for (std::size_t i = 0; i < stated_values; ++i)
      values_.push_back({stated_mm(middle_of(i, stated_values), lead_days, forecast_mm), 1.0});
  } else {
    const double each = pairs_of_no_skill(errors.rain) / static_cast<double>(errors.rain.size());
    for (const RainPair& pair : errors.rain) values_.push_back({pair.observed_mm, each});
    for (const RainPair& pair : alike(forecast_mm, errors.rain))
      values_.push_back({carried_over_mm(pair, forecast_mm), 1.0});
  }
  std::stable_sort(values_.begin(), values_.end(),
                   [](const Weighed& a, const Weighed& b) { return a.rain_mm < b.rain_mm; });
  for (const Weighed& value : values_) total_weight_ += value.weight;
}

double RainSpread::quantile_mm(double p) const {
  double below = 0.0;
  for (const Weighed& value : values_) {
    below += value.weight;
    if (below >= p * total_weight_) return value.rain_mm;
  }
  return values_.back().rain_mm;
}

double pairs_of_no_skill(std::span<const RainPair> pairs) {
  constexpr double least_pairs = 1.0;
  constexpr double most_pairs = 1000.0;
  std::array<Group, bins> groups;
  Group all;
  for (const RainPair& pair : pairs) {
    const double wet = pair.observed_mm >= rain_day_mm ? 1.0 : 0.0;
    for (Group* group : {&groups[bin_of(pair.forecast_mm)], &all}) {
      group->pairs += 1.0;
      group->wet += wet;
    }
  }
  if (all.wet <= 0.0 || all.wet >= all.pairs) return least_pairs;
  const double rate = all.wet / all.pairs;
  const double variance = rate * (1.0 - rate);
  double between = 0.0;
  double by_luck = -variance;
  double effective = all.pairs;
  for (const Group& group : groups) {
    if (group.pairs <= 0.0) continue;
    const double off = group.wet / group.pairs - rate;
    between += group.pairs * off * off;
    by_luck += variance;
    effective -= group.pairs * group.pairs / all.pairs;
  }
  if (effective <= 0.0 || between <= by_luck) return most_pairs;
  const double of_forecast = (between - by_luck) / effective;
  return held_between(least_pairs, variance / of_forecast - 1.0, most_pairs);
}

double temperature_error_c(double p, std::size_t lead_days, const LeadErrors& errors) {
  const double spread_c = 1.0 + 0.25 * static_cast<double>(lead_days);
  const double stated_c = spread_c * normal_quantile(p);
  if (errors.warmer_c.size() < pairs_needed) return stated_c;
  std::vector<double> own = errors.warmer_c;
  std::sort(own.begin(), own.end());
  const auto count = static_cast<double>(own.size());
  const auto at = static_cast<std::size_t>(held_between(0.0, p * count, count - 1.0));
  return (count * own[at] + stated_weight * stated_c) / (count + stated_weight);
}

std::vector<std::vector<MemberDay>> make_members(std::span<const double> rain_by_day_mm,
                                                 std::span<const LeadErrors> errors) {
  static const LeadErrors none;
  std::vector<std::vector<MemberDay>> members(made_members);
  for (std::size_t day = 0; day < rain_by_day_mm.size(); ++day) {
    const LeadErrors& own = day < errors.size() ? errors[day] : none;
    const RainSpread rain(rain_by_day_mm[day], day, own);
    for (std::size_t m = 0; m < made_members; ++m)
      members[m].push_back(
          {.rain_mm = rain.quantile_mm(rank_of(m, day)),
           .warmer_c = temperature_error_c(rank_of(m, day + warmth_ahead), day, own)});
  }
  return members;
}

}  // namespace gley::model

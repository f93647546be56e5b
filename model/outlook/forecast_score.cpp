#include "model/outlook/forecast_score.hpp"

#include <cmath>
#include <map>

namespace gley::model {

namespace {

struct Group {
  double pairs = 0.0;
  double happened = 0.0;
};

double mean_error(std::span<const double> members, double observed) {
  double sum = 0.0;
  for (const double member : members) sum += std::abs(member - observed);
  return sum / static_cast<double>(members.size());
}

double sum_of_differences(std::span<const double> members) {
  double sum = 0.0;
  for (const double a : members)
    for (const double b : members) sum += std::abs(a - b);
  return sum;
}

}  // namespace

BrierScore brier_score(std::span<const ChancePair> pairs) {
  BrierScore out{.pairs = pairs.size()};
  if (pairs.empty()) return out;
  const auto count = static_cast<double>(pairs.size());
  std::map<double, Group> groups;
  double happened = 0.0;
  for (const ChancePair& pair : pairs) {
    const double outcome = pair.happened ? 1.0 : 0.0;
    out.score += (pair.chance - outcome) * (pair.chance - outcome) / count;
    Group& group = groups[pair.chance];
    group.pairs += 1.0;
    group.happened += outcome;
    happened += outcome;
  }
  const double base_rate = happened / count;
  for (const auto& [chance, group] : groups) {
    const double rate = group.happened / group.pairs;
    out.reliability += group.pairs * (chance - rate) * (chance - rate) / count;
    out.resolution += group.pairs * (rate - base_rate) * (rate - base_rate) / count;
  }
  out.uncertainty = base_rate * (1.0 - base_rate);
  if (out.uncertainty > 0.0) out.skill = 1.0 - out.score / out.uncertainty;
  return out;
}

double crps(std::span<const double> members, double observed) {
  const auto count = static_cast<double>(members.size());
  return mean_error(members, observed) - sum_of_differences(members) / (2.0 * count * count);
}

}  // namespace gley::model

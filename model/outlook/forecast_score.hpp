#pragma once
#include <cstddef>
#include <optional>
#include <span>

/// How good forecasts were, by what came.
namespace gley::model {

/// A chance that was given, and what came.
struct ChancePair {
  double chance = 0.0;  ///< 0..1
  bool happened = false;
};

struct BrierScore {
  std::size_t pairs = 0;
  double score = 0.0;                ///< mean (p - o)^2, 0 is perfect
  double reliability = 0.0;          ///< smaller is better
  double resolution = 0.0;           ///< larger is better
  double uncertainty = 0.0;          ///< of what came, whatever was said
  std::optional<double> skill = {};  ///< 1 - score/uncertainty; absent where one thing always came
};

/// score = reliability - resolution + uncertainty, in groups of equal chances.
/// Source: Brier (1950), Mon. Weather Rev. 78:1-3; Murphy (1973), J. Appl. Meteorol. 12:595-600.
/// Check: p .1 x4, .4 x4, .8 x2 with o 0001 0101 11: 0.1960 = 0.0210 - 0.0750 + 0.2500, skill
/// 0.216.
[[nodiscard]] BrierScore brier_score(std::span<const ChancePair> pairs);

/// Continuous ranked probability score of an ensemble, in the unit of its values: mean |x - y| less
/// half the mean |x - x'|. Of one member the absolute error. Source: Hersbach (2000), Weather
/// Forecast. 15:559-570. Check: {0, 2, 5, 8, 20}, y 6 -> 1.720.
/// `members` at least one.
[[nodiscard]] double crps(std::span<const double> members, double observed);

}  // namespace gley::model

#pragma once
#include <optional>
#include <string_view>
#include <vector>

#include "model/ground/ground_verdict.hpp"
#include "model/spreading/material_kind.hpp"
#include "model/spreading/spreading_limits.hpp"

namespace gley::model {

/// A material on a field.
enum class Advice { clear, hold, not_known };

[[nodiscard]] constexpr std::string_view to_word(Advice advice) {
  switch (advice) {
    case Advice::clear:
      return "clear";
    case Advice::hold:
      return "hold";
    case Advice::not_known:
      return "not known";
  }
  return {};
}

/// What the forecast makes of a field. Amounts are means over its members.
struct SpreadingOutlook {
  double drainage_48h_mm = 0.0;  ///< by pipes and below the roots
  double runoff_48h_mm = 0.0;
  double drainage_7d_mm = 0.0;
  double chance_heavy_rain_48h = 0.0;  ///< 0..1, of SpreadingLimits::heavy_rain_mm or more
  std::optional<double> hours_to_heavy_rain = {};  ///< absent: none in sight
};

/// How a field lies, the same on every day.
struct SpreadingPlace {
  double slope_pct = 0.0;
  std::optional<double> water_distance_m = {};   ///< absent: not judged
  std::optional<double> spring_distance_m = {};  ///< absent: not judged
  std::optional<double> water_edge_m = {};       ///< length of the edge along that water
  std::optional<double> area_ha = {};
};

/// What of a field and its day decides spreading on it.
struct SpreadingField {
  GroundState<double> ground;
  double topsoil_field_capacity = 0.0;
  bool frozen = false;  ///< more than 12 of the last 24 hours
  bool drains_running = false;
  SpreadingPlace place;
};

/// Frozen as far as the day's extremes tell.
[[nodiscard]] SpreadingField spreading_field(const Field& field, const FieldDay& day,
                                             const GroundState<double>& ground,
                                             const SpreadingPlace& place);

/// Why. Each speaks of two numbers, what was found and what is needed or allowed.
enum class SpreadingReasonKind {
  no_forecast,         ///< no numbers
  numbers_missing,     ///< of the field or the outlook are not all known
  waterlogged,         ///< mm standing; 0
  snow,                ///< mm of water in it; mm allowed
  frozen,              ///< no numbers
  drains_running,      ///< no numbers
  ground_closed,       ///< to wheels; no numbers of its own: see SpreadingReason::ground
  heavy_rain_coming,   ///< chance; allowed
  runoff_coming,       ///< mm in 48 h; allowed
  drainage_coming,     ///< mm in 48 h; allowed
  would_leach,         ///< share in 7 days; allowed
  too_steep,           ///< slope, %; allowed
  too_near_to_water,   ///< m; needed: a strip to leave out
  too_near_to_spring,  ///< m; needed: a piece to leave out
  water_not_given,     ///< how far it lies, so not judged; no numbers
  spring_not_given,    ///< the same of springs and wells
  drift_not_judged,    ///< of a spray; no numbers
  nothing_against,     ///< chance of heavy rain; allowed
  rain_not_known,      ///< mm wetter than said the soil may be; 0
};

struct SpreadingReason {
  SpreadingReasonKind kind = SpreadingReasonKind::no_forecast;
  double found = 0.0;
  double needed = 0.0;
  bool holds = false;                       ///< else only a word of warning
  std::optional<GroundReason> ground = {};  ///< what closed the ground
  std::optional<double> in_hours = {};      ///< when heavy rain may begin
  std::optional<double> lost_ha = {};       ///< area that a buffer takes, where it can be told

  friend bool operator==(const SpreadingReason&, const SpreadingReason&) = default;
};

struct SpreadingAdvice {
  Advice advice = Advice::not_known;
  std::vector<SpreadingReason> reasons;  ///< what holds first; never empty

  friend bool operator==(const SpreadingAdvice&, const SpreadingAdvice&) = default;
};

struct SpreadingRules {
  SpreadingLimits spreading;
  GroundLimits ground;
};

/// outlook: absent where no forecast is younger than 24 h; then the advice is not known, and the
/// reasons still name what the field itself has against it.
[[nodiscard]] SpreadingAdvice advise(MaterialKind kind, const SpreadingField& field,
                                     const std::optional<SpreadingOutlook>& outlook,
                                     const SpreadingRules& rules);

/// On a field whose soil may be wetter than said, for rain that nobody measured: what holds in
/// either holds.
struct TwoAdvices {
  const SpreadingAdvice& said;
  const SpreadingAdvice& wetter;
  double wetter_mm = 0.0;
};
[[nodiscard]] SpreadingAdvice advice_between(const TwoAdvices& two);

}  // namespace gley::model

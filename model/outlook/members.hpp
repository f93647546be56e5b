#pragma once
#include <cstddef>
#include <span>
#include <vector>

/// Members for a forecast that has only one: by what came after forecasts like it. Deterministic:
/// members stand at fixed ranks, none is drawn.
namespace gley::model {

/// A day's rain as it was forecast and as it fell.
struct RainPair {
  double forecast_mm = 0.0;
  double observed_mm = 0.0;
};

/// How forecasts so many days ahead have erred.
struct LeadErrors {
  std::vector<RainPair> rain;
  std::vector<double> warmer_c;  ///< observed less forecast mean temperature
};

/// Pairs of a lead day from which the farm's own errors count.
inline constexpr std::size_t pairs_needed = 30;

/// Forecast rain under this is a dry day. Our choice.
inline constexpr double dry_day_mm = 0.2;

/// Rain of a day as a distribution: values with weights, rising.
class RainSpread {
 public:
  /// lead_days: 0 is today. errors: of this lead.
  /// With `pairs_needed` pairs: what fell after forecasts of the same size (0, to 1, 5, 10, 20 mm
  /// and over; wider while there are under 10), from 1 mm up in proportion to the forecast, beside
  /// what fell after all forecasts, with the weight of as many pairs as `pairs_of_no_skill` says.
  /// Before that the stated spread alone, all ours:
  /// after a dry forecast rain with a chance of 0.08 and 0.03 more a day, to 0.35, 2 mm in the
  /// mean; after a wet one none with a chance of (0.05 and 0.03 a day) exp(-f/4 mm), else lognormal
  /// with a standard deviation of ln of 0.5 and 0.08 a day, the mean the forecast's own.
  RainSpread(double forecast_mm, std::size_t lead_days, const LeadErrors& errors);

  /// The rain that stays at or under it with probability p, 0 < p < 1.
  [[nodiscard]] double quantile_mm(double p) const;

 private:
  struct Weighed {
    double rain_mm = 0.0;
    double weight = 0.0;
  };
  std::vector<Weighed> values_;
  double total_weight_ = 0.0;
};

/// Error of the mean temperature that stays at or under it with probability p: the farm's own from
/// `pairs_needed` pairs on, beside the stated spread with the weight of 10; that is normal with a
/// standard deviation of 1 degC and 0.25 more a day (ours).
[[nodiscard]] double temperature_error_c(double p, std::size_t lead_days, const LeadErrors& errors);

/// How many pairs of one size weigh as much as all pairs whatever their size: few if rain came by
/// what was forecast, many if it did not. From the chance of rain by size of forecast, as a
/// beta-binomial by its moments (Kleinman 1973, J. Am. Stat. Assoc. 68:46-54; from memory), without
/// which small groups would make bold chances of mere luck. 1 to 1000.
[[nodiscard]] double pairs_of_no_skill(std::span<const RainPair> pairs);

struct MemberDay {
  double rain_mm = 0.0;
  double warmer_c = 0.0;  ///< to add to every temperature of the day
};

inline constexpr std::size_t made_members = 30;

/// Members by day for a forecast's rain by day, today first. On each day every rank is taken once;
/// from day to day and between rain and warmth the ranks go by a lattice rule (Korobov 1959), as if
/// errors were independent, which they are not quite. errors: by lead day; missing leads have none.
[[nodiscard]] std::vector<std::vector<MemberDay>> make_members(
    std::span<const double> rain_by_day_mm, std::span<const LeadErrors> errors);

}  // namespace gley::model

#pragma once
#include <cstddef>
#include <optional>
#include <vector>

#include "tests/measured/series.hpp"

/// How well a model follows what was measured, over the days that have both.
namespace gley::measured {

struct Scores {
  std::size_t days = 0;
  double mean = 0.0;  ///< of what was measured
  double r = 0.0;
  double bias = 0.0;  ///< model less measured
  double rmse = 0.0;
  double ubrmse = 0.0;     ///< RMSE once the bias is taken off
  double anomaly_r = 0.0;  ///< correlation of departures from the centred 35-day mean
};

[[nodiscard]] Scores scores(const Series& measured, const Series& model);

/// Departures from the mean of the 35 days around; none where fewer than 18 of them are known.
[[nodiscard]] Series anomalies(const Series& series);

/// At or above field capacity: at most this much water below it, on both sides, mm.
inline constexpr double at_capacity_mm = 1.0;

/// A year's turn from winter to summer and back, by the days at or above field capacity.
struct Turn {
  std::chrono::year year;
  std::optional<Date> left;      ///< first day below after the last at capacity before 1 July
  std::optional<Date> returned;  ///< first day at capacity from 1 August on
};

/// Of whole calendar years only.
[[nodiscard]] std::vector<Turn> turns(const Series& deficit_mm);

struct CapacityScores {
  std::size_t days_at = 0;         ///< measured at or above
  double hit_rate = 0.0;           ///< of those, so modelled
  double false_alarm_rate = 0.0;   ///< of the days below, modelled at or above
  double false_alarm_ratio = 0.0;  ///< of the days modelled at or above, below
  double leaving_d = 0.0;          ///< median of model less measured; positive: late
  double leaving_spread_d = 0.0;   ///< median of the absolute difference
  double returning_d = 0.0;
  double returning_spread_d = 0.0;
  std::size_t years = 0;
};

[[nodiscard]] CapacityScores capacity_scores(const Series& measured_mm, const Series& model_mm);

}  // namespace gley::measured

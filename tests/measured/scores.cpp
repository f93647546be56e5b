#include "tests/measured/scores.hpp"

#include <algorithm>
#include <cmath>

namespace gley::measured {

namespace {

using std::chrono::days;

struct Pairs {
  std::vector<double> measured;
  std::vector<double> model;
};

Pairs pairs_of(const Series& measured, const Series& model) {
  Pairs pairs;
  for (const auto& [date, value] : measured) {
    const auto same_day = model.find(date);
    if (same_day == model.end()) continue;
    pairs.measured.push_back(value);
    pairs.model.push_back(same_day->second);
  }
  return pairs;
}

double mean_of(const std::vector<double>& values) {
  double sum = 0.0;
  for (const double value : values) sum += value;
  return sum / static_cast<double>(values.size());
}

double correlation(const Pairs& pairs) {
  const double mx = mean_of(pairs.measured);
  const double my = mean_of(pairs.model);
  double xx = 0.0;
  double yy = 0.0;
  double xy = 0.0;
  for (std::size_t i = 0; i < pairs.model.size(); ++i) {
    const double x = pairs.measured[i] - mx;
    const double y = pairs.model[i] - my;
    xx += x * x;
    yy += y * y;
    xy += x * y;
  }
  return xx > 0.0 && yy > 0.0 ? xy / std::sqrt(xx * yy) : 0.0;
}

double median(std::vector<double> values) {
  if (values.empty()) return NAN;
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

Turn turn_of(const Series& deficit_mm, std::chrono::year year) {
  Turn turn{.year = year, .left = {}, .returned = {}};
  const Date new_year{year / 1 / 1};
  const Date july{year / 7 / 1};
  const Date august{year / 8 / 1};
  const Date end{(year + std::chrono::years{1}) / 1 / 1};
  for (auto day = deficit_mm.lower_bound(new_year); day->first < july; ++day)
    if (day->second <= at_capacity_mm) turn.left = day->first + days{1};
  for (auto day = deficit_mm.lower_bound(august);
       day != deficit_mm.end() && day->first < end && !turn.returned; ++day)
    if (day->second <= at_capacity_mm) turn.returned = day->first;
  return turn;
}

}  // namespace

Scores scores(const Series& measured, const Series& model) {
  const Pairs pairs = pairs_of(measured, model);
  Scores out;
  out.days = pairs.model.size();
  if (out.days == 0) return out;
  out.mean = mean_of(pairs.measured);
  out.bias = mean_of(pairs.model) - out.mean;
  double squares = 0.0;
  for (std::size_t i = 0; i < out.days; ++i)
    squares += std::pow(pairs.model[i] - pairs.measured[i], 2.0);
  out.rmse = std::sqrt(squares / static_cast<double>(out.days));
  out.ubrmse = std::sqrt(std::max(0.0, out.rmse * out.rmse - out.bias * out.bias));
  out.r = correlation(pairs);
  const Pairs departures = pairs_of(anomalies(measured), anomalies(model));
  if (!departures.model.empty()) out.anomaly_r = correlation(departures);
  return out;
}

Series anomalies(const Series& series) {
  constexpr days half_window{17};
  constexpr int least_days = 18;
  Series out;
  for (const auto& [date, value] : series) {
    double sum = 0.0;
    int known = 0;
    for (auto day = series.lower_bound(date - half_window);
         day != series.end() && day->first <= date + half_window; ++day) {
      sum += day->second;
      ++known;
    }
    if (known >= least_days) out.emplace(date, value - sum / known);
  }
  return out;
}

std::vector<Turn> turns(const Series& deficit_mm) {
  std::vector<Turn> out;
  if (deficit_mm.empty()) return out;
  const auto year_of = [](Date date) { return std::chrono::year_month_day{date}.year(); };
  for (auto year = year_of(deficit_mm.begin()->first); year <= year_of(deficit_mm.rbegin()->first);
       ++year) {
    const Date first{year / 1 / 1};
    const Date last{year / 12 / 31};
    if (deficit_mm.begin()->first <= first && last <= deficit_mm.rbegin()->first)
      out.push_back(turn_of(deficit_mm, year));
  }
  return out;
}

CapacityScores capacity_scores(const Series& measured_mm, const Series& model_mm) {
  const Pairs pairs = pairs_of(measured_mm, model_mm);
  double hits = 0.0;
  double alarms = 0.0;
  double below = 0.0;
  CapacityScores out;
  for (std::size_t i = 0; i < pairs.model.size(); ++i) {
    const bool is = pairs.measured[i] <= at_capacity_mm;
    const bool said = pairs.model[i] <= at_capacity_mm;
    out.days_at += is ? 1 : 0;
    below += is ? 0.0 : 1.0;
    hits += is && said ? 1.0 : 0.0;
    alarms += !is && said ? 1.0 : 0.0;
  }
  out.hit_rate = hits / static_cast<double>(out.days_at);
  out.false_alarm_rate = alarms / below;
  out.false_alarm_ratio = alarms / (alarms + hits);

  std::vector<double> leaving;
  std::vector<double> returning;
  const std::vector<Turn> measured = turns(measured_mm);
  for (const Turn& own : turns(model_mm))
    for (const Turn& want : measured) {
      if (own.year != want.year) continue;
      ++out.years;
      if (own.left && want.left)
        leaving.push_back(static_cast<double>((*own.left - *want.left).count()));
      if (own.returned && want.returned)
        returning.push_back(static_cast<double>((*own.returned - *want.returned).count()));
    }
  out.leaving_d = median(leaving);
  out.returning_d = median(returning);
  for (double& d : leaving) d = std::abs(d);
  for (double& d : returning) d = std::abs(d);
  out.leaving_spread_d = median(leaving);
  out.returning_spread_d = median(returning);
  return out;
}

}  // namespace gley::measured

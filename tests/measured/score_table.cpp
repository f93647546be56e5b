#include "tests/measured/score_table.hpp"

#include <cmath>
#include <cstdio>

namespace gley::measured {

namespace {

std::string month_and_day(const std::optional<Date>& date) {
  if (!date) return "  -  ";
  const std::chrono::year_month_day day{*date};
  char text[16];
  std::snprintf(text, sizeof text, "%02u-%02u", unsigned(day.month()), unsigned(day.day()));
  return text;
}

/// Days late, the median, and in bars the median size; nothing where no year has both dates.
std::string late(double days, double size_d) {
  if (std::isnan(days)) return "-";
  char text[32];
  std::snprintf(text, sizeof text, "%+.1f d (|%.1f|)", days, size_d);
  return text;
}

}  // namespace

void print_heading(const std::string& record) {
  std::printf("\n%s\n", record.c_str());
}

void print_scores(const std::string& model, const Scores& s, Unit unit) {
  const int digits = unit == Unit::mm ? 2 : 4;
  std::printf("  %-38s days %5zu  r %6.3f  bias %+.*f  RMSE %.*f  ubRMSE %.*f  anomaly r %6.3f\n",
              model.c_str(), s.days, s.r, digits, s.bias, digits, s.rmse, digits, s.ubrmse,
              s.anomaly_r);
}

void print_capacity(const std::string& model, const CapacityScores& s) {
  std::printf(
      "  %-38s at capacity %5zu days  hits %.3f  false alarms %.3f of the days below, %.3f of "
      "those "
      "called  leaves %s  returns %s  years %zu\n",
      model.c_str(), s.days_at, s.hit_rate, s.false_alarm_rate, s.false_alarm_ratio,
      late(s.leaving_d, s.leaving_spread_d).c_str(),
      late(s.returning_d, s.returning_spread_d).c_str(), s.years);
}

void print_turns(const Series& measured_mm, const Series& model_mm) {
  const std::vector<Turn> measured = turns(measured_mm);
  for (const Turn& own : turns(model_mm))
    for (const Turn& want : measured) {
      if (own.year != want.year) continue;
      std::printf("    %d  left %s, model %s;  returned %s, model %s\n", int(own.year),
                  month_and_day(want.left).c_str(), month_and_day(own.left).c_str(),
                  month_and_day(want.returned).c_str(), month_and_day(own.returned).c_str());
    }
}

void print_losses(const std::string& naive, const Scores& its, const Scores& ours) {
  if (its.ubrmse < ours.ubrmse)
    std::printf("    loses to %s by ubRMSE: %.4f against %.4f\n", naive.c_str(), ours.ubrmse,
                its.ubrmse);
  if (its.r > ours.r)
    std::printf("    loses to %s by r: %.3f against %.3f\n", naive.c_str(), ours.r, its.r);
}

}  // namespace gley::measured

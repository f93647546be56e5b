#include "daemon/engine/weather/rain_ahead.hpp"

#include <algorithm>

#include "model/outlook/chance.hpp"
#include "model/outlook/spread.hpp"

namespace gley::daemon {

namespace {

RainAheadView view_of(Instant from, Instant until, std::vector<double> by_member_mm) {
  RainAheadView view{.from = from, .until = until};
  if (by_member_mm.empty()) return view;
  view.chance = chance_of_rain(by_member_mm);
  const model::Spread spread = model::spread_of(std::move(by_member_mm));
  view.low_mm = spread.low;
  view.high_mm = spread.high;
  return view;
}

/// What of a step falls between two moments, if it falls evenly.
double share_within(const RainStep& step, Instant from, Instant until) {
  const auto length = step.until - step.from;
  if (length <= length.zero()) return step.from >= from && step.until <= until ? 1.0 : 0.0;
  const auto common = std::min(step.until, until) - std::max(step.from, from);
  if (common <= common.zero()) return 0.0;
  return static_cast<double>(common.count()) / static_cast<double>(length.count());
}

}  // namespace

double chance_of_rain(const std::vector<double>& by_member_mm) {
  const auto wet = std::count_if(by_member_mm.begin(), by_member_mm.end(),
                                 [](double rain_mm) { return rain_mm >= rain_day_mm; });
  return model::chance_of(
      {.happened = static_cast<std::size_t>(wet), .members = by_member_mm.size()});
}

std::vector<RainAheadView> rain_by_day(const ForecastDays& ahead, const FarmCalendar& calendar) {
  std::vector<RainAheadView> days;
  for (std::size_t d = 0; d < ahead.days; ++d) {
    const auto date = ahead.first + std::chrono::days{static_cast<int>(d)};
    std::vector<double> by_member_mm;
    for (const auto& member : ahead.weather)
      by_member_mm.push_back(member[d].rain_mm.value_or(0.0));
    days.push_back(view_of(std::max(ahead.now, calendar.begins(date)), calendar.ends(date),
                           std::move(by_member_mm)));
  }
  return days;
}

std::optional<RainAheadView> rain_within_48h(const ForecastDays& ahead) {
  const Instant until = ahead.now + std::chrono::hours{48};
  if (ahead.rain.empty() || ahead.rain.back().until < until) return {};
  std::vector<double> by_member_mm(ahead.rain.front().by_member_mm.size(), 0.0);
  for (const RainStep& step : ahead.rain) {
    const double share = share_within(step, ahead.now, until);
    for (std::size_t m = 0; m < by_member_mm.size() && m < step.by_member_mm.size(); ++m)
      by_member_mm[m] += share * step.by_member_mm[m];
  }
  return view_of(ahead.now, until, std::move(by_member_mm));
}

}  // namespace gley::daemon

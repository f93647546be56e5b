#include "daemon/engine/outlook/member_days.hpp"

#include "daemon/readings/hours.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;
using Members = std::vector<std::vector<model::MemberDay>>;

void add_to(std::optional<double>& value, double by) {
  if (value) *value += by;
}

DailyWeather member_day(DailyWeather day, const model::MemberDay& by) {
  day.rain_mm = by.rain_mm;
  add_to(day.tmin_c, by.warmer_c);
  add_to(day.tmax_c, by.warmer_c);
  add_to(day.tmean_c, by.warmer_c);
  add_to(day.dew_point_c, by.warmer_c);
  return day;
}

double length_h(const RainStep& step) {
  return Hours(step.until - step.from).count();
}

/// What the steps of one day hold together.
struct DayTotal {
  double rain_mm = 0.0;
  double length_h = 0.0;
};

class StepShares {
 public:
  StepShares(const ForecastDays& forecast, const FarmCalendar& calendar)
      : forecast_(forecast), calendar_(calendar), totals_(forecast.days) {
    for (const RainStep& step : forecast.rain) {
      const std::size_t day = index_of(step);
      if (day >= totals_.size()) continue;
      totals_[day].rain_mm += step.by_member_mm.front();
      totals_[day].length_h += length_h(step);
    }
  }

  [[nodiscard]] RainStep of_members(RainStep step, const Members& members) const {
    const std::size_t day = index_of(step);
    const double own_mm = step.by_member_mm.front();
    step.by_member_mm.assign(members.size(), own_mm);
    if (day >= totals_.size()) return step;
    const DayTotal& total = totals_[day];
    const double share =
        total.rain_mm > 0.0 ? own_mm / total.rain_mm : length_h(step) / total.length_h;
    for (std::size_t m = 0; m < members.size(); ++m)
      step.by_member_mm[m] = members[m][day].rain_mm * share;
    return step;
  }

 private:
  [[nodiscard]] std::size_t index_of(const RainStep& step) const {
    return static_cast<std::size_t>(
        (calendar_.day_of_amount_until(step.until) - forecast_.first).count());
  }

  const ForecastDays& forecast_;
  const FarmCalendar& calendar_;
  std::vector<DayTotal> totals_;
};

}  // namespace

ForecastDays with_members(const ForecastDays& forecast, const FarmCalendar& calendar,
                          const std::vector<model::LeadErrors>& errors) {
  std::vector<double> rain_mm;
  for (const DailyWeather& day : forecast.weather.front())
    rain_mm.push_back(day.rain_mm.value_or(0.0));
  const Members members = model::make_members(rain_mm, errors);
  ForecastDays out = forecast;
  out.members = members.size();
  out.weather.clear();
  for (const std::vector<model::MemberDay>& member : members) {
    std::vector<DailyWeather>& days = out.weather.emplace_back();
    for (std::size_t d = 0; d < forecast.days; ++d)
      days.push_back(member_day(forecast.weather.front()[d], member[d]));
  }
  const StepShares shares(forecast, calendar);
  for (RainStep& step : out.rain) step = shares.of_members(std::move(step), members);
  return out;
}

}  // namespace gley::daemon

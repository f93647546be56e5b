#include "daemon/readings/season_norms.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/readings/quality_limits.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

int year_of(sys_days date) {
  return static_cast<int>(std::chrono::year_month_day(date).year());
}

std::size_t month_of(sys_days date) {
  return static_cast<unsigned>(std::chrono::year_month_day(date).month()) - 1;
}

sys_days first_day(int year) {
  return std::chrono::year(year) / std::chrono::January / 1;
}

Norm norm(double sum, double squares, int days) {
  const double mean = sum / days;
  return {mean, std::sqrt(std::max(0.0, squares / days - mean * mean))};
}

}  // namespace

void SeasonNorms::forget_from(sys_days date) {
  before_.erase(before_.upper_bound(year_of(date)), before_.end());
}

void SeasonNorms::add_year(int year, const DoubtsByDay& doubted) {
  const auto known = before_.find(year);
  ByMonth months = known == before_.end() ? ByMonth{} : known->second;
  const auto end = record_.lower_bound(first_day(year + 1));
  for (auto day = record_.lower_bound(first_day(year)); day != end; ++day) {
    const model::DailyWeather& weather = day->second.weather;
    if (!weather.tmin_c || !weather.tmax_c || doubted.count(day->first) > 0) continue;
    Sums& sums = months[month_of(day->first)];
    ++sums.days;
    sums.tmin += *weather.tmin_c;
    sums.tmin_squares += *weather.tmin_c * *weather.tmin_c;
    sums.tmax += *weather.tmax_c;
    sums.tmax_squares += *weather.tmax_c * *weather.tmax_c;
  }
  before_[year + 1] = months;
}

std::optional<SeasonNorms::Extremes> SeasonNorms::before_year_of(sys_days date,
                                                                 const DoubtsByDay& doubted) {
  if (record_.empty()) return {};
  const int year = year_of(date);
  const int first = before_.empty() ? year_of(record_.begin()->first) : before_.rbegin()->first;
  for (int each = first; each < year; ++each) add_year(each, doubted);
  const auto found = before_.find(year);
  if (found == before_.end()) return {};
  const Sums& sums = found->second[month_of(date)];
  if (sums.days < limits::season_days) return {};
  return Extremes{norm(sums.tmin, sums.tmin_squares, sums.days),
                  norm(sums.tmax, sums.tmax_squares, sums.days)};
}

}  // namespace gley::daemon

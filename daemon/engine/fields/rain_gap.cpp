#include "daemon/engine/fields/rain_gap.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/board/words/figure_text.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::days looks_back{60};
constexpr std::chrono::days a_year{365};
constexpr int days_to_know = 30;

struct DailyRain {
  double mean_mm = 2.2;
  double deviation_mm = 4.5;
};

bool is_of_gap(const model::StationDay& day) {
  return day.flags.has(model::DayFlag::rain_missing);
}

DailyRain daily_rain(const std::vector<model::StationDay>& days) {
  double sum = 0.0;
  double squares = 0.0;
  int known = 0;
  for (const model::StationDay& day : days) {
    const bool of_last_year = day.date > days.back().date - a_year;
    if (!of_last_year || !day.weather.rain_mm || is_of_gap(day)) continue;
    ++known;
    sum += *day.weather.rain_mm;
    squares += *day.weather.rain_mm * *day.weather.rain_mm;
  }
  if (known < days_to_know) return {};
  const double mean = sum / known;
  return {.mean_mm = mean, .deviation_mm = std::sqrt(std::max(0.0, squares / known - mean * mean))};
}

}  // namespace

RainGap rain_gap(const std::vector<model::StationDay>& days) {
  RainGap gap;
  for (auto day = days.rbegin(); day != days.rend(); ++day) {
    if (day->date <= days.back().date - looks_back) break;
    if (!is_of_gap(*day)) continue;
    gap.from = day->date;
    ++gap.days;
  }
  if (gap.days == 0) return gap;
  const DailyRain rain = daily_rain(days);
  gap.rain_mm = gap.days * rain.mean_mm + std::sqrt(gap.days) * rain.deviation_mm;
  return gap;
}

model::StationDay as_if_it_rained(const RainGap& gap, model::StationDay day) {
  if (gap.days > 0 && day.date >= gap.from && is_of_gap(day))
    day.weather.rain_mm = gap.rain_mm / gap.days;
  return day;
}

std::string words(const RainGap& gap, double wetter_mm) {
  return "rain of " + std::to_string(gap.days) + (gap.days == 1 ? " day" : " days") +
         " of the last 60 is not known and counts as none: the soil may be " + mm_text(wetter_mm) +
         " wetter than said";
}

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "daemon/readings/forecast.hpp"
#include "model/weather/daily_weather.hpp"

namespace gley::daemon {

/// Rain that one step of a forecast brings, by member.
struct RainStep {
  Instant from{};
  Instant until{};
  std::vector<double> by_member_mm;
};

/// What a forecast says of the farm's days from today on, by the rule for amounts. Of today the
/// rain is what is still to come after `now`, the rest is of the whole day as far as the forecast
/// goes; wind is at 2 m. Days end where the forecast has a gap or stops.
struct ForecastDays {
  Instant now{};
  std::chrono::sys_days first;  ///< today
  std::size_t members = 1;
  std::size_t days = 0;                                   ///< 0: see `problem`
  std::vector<std::vector<model::DailyWeather>> weather;  ///< by member, then by day
  std::vector<RainStep> rain;                             ///< to come, in order of time
  std::string problem;  ///< why there are fewer days than asked for; empty if there are all
};

/// Mean over the members of one day; empty if one of them lacks it. value: of a DailyWeather, a
/// member of it or a function.
template <class Value>
[[nodiscard]] std::optional<double> member_mean(const ForecastDays& ahead, std::size_t day,
                                                Value value) {
  double sum = 0.0;
  for (const std::vector<model::DailyWeather>& member : ahead.weather) {
    const std::optional<double> own = std::invoke(value, member[day]);
    if (!own) return {};
    sum += *own;
  }
  return sum / static_cast<double>(ahead.weather.size());
}

/// At most `most_days` days, today among them. Rain may break off, or begin, up to 3 hours short of
/// a day's end or later than now (our choice). One temperature alone in a day is its mean, absent
/// extremes: see join_today.
[[nodiscard]] ForecastDays forecast_days(const Forecast& forecast, const FarmCalendar& calendar,
                                         Instant now, std::size_t most_days);

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <optional>
#include <vector>

#include "model/weather/station_day.hpp"

namespace gley::daemon {

/// What stations have told of a day that has not ended.
struct TodaySoFar {
  std::chrono::sys_days date;
  model::Site site;
  std::optional<model::TemperatureRange> last_known;  ///< of the last day that had both extremes
  model::DailyWeather seen;
  std::optional<model::DailyWeather> yesterday;  ///< made whole; absent on the first day
};

/// Today before its end. Rain: what was seen and what is still expected. The extremes are the
/// forecast's, else yesterday's, widened by what was seen. For the rest what was seen, then the
/// forecast's, then yesterday's; sun is never what was seen, as half a day says little.
/// expected: the forecast for today, its rain only what is still to come, its wind at 2 m; empty
/// without one.
[[nodiscard]] model::StationDay today_of(const TodaySoFar& today,
                                         const model::DailyWeather& expected);

/// Today and the days after it under one member of a forecast. A day of which only the mean
/// temperature is forecast gets the last known range about it.
[[nodiscard]] std::vector<model::StationDay> days_ahead(
    const TodaySoFar& today, const std::vector<model::DailyWeather>& expected);

}  // namespace gley::daemon

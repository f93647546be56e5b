#pragma once
#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "daemon/readings/day_record.hpp"
#include "model/weather/daily_weather.hpp"

namespace gley::daemon {

/// A station as a source of weather for fields.
struct WeatherSource {
  std::string station;
  model::Site site;
  const StationRecord* record = nullptr;  ///< never null
  const DoubtsByDay* doubts = nullptr;    ///< of whole days; null: nothing is doubted
};

/// A day's weather put together from stations in order of trust, and which of them each part is
/// from.
struct WeatherChoice {
  model::DailyWeather weather;  ///< wind at the first station's height
  model::DayFlags flags;        ///< rain_partial, *_doubtful, *_borrowed
  std::optional<std::size_t> rain;
  std::optional<std::size_t> irrigation;
  std::optional<std::size_t> air;  ///< temperatures or ET0
  std::optional<std::size_t> humidity;
  std::optional<std::size_t> wind;
  std::optional<std::size_t> radiation;
};

enum class DayPart { whole, so_far };

/// Rain: of the first station that heard all of it and is not doubted, else of the first that has
/// any. The air: all of the first station that has temperatures; humidity, wind and radiation that
/// it lacks each of the first that has them. What a quality check doubts counts as not measured. A
/// part that is not the first station's is flagged as borrowed. What no station has is estimated
/// later: see model/weather/missing.hpp.
[[nodiscard]] WeatherChoice choose_weather(const std::vector<WeatherSource>& sources,
                                           std::chrono::sys_days date, DayPart part);

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <map>
#include <string_view>

#include "daemon/readings/reading.hpp"
#include "daemon/store/database.hpp"
#include "model/weather/daily_weather.hpp"

namespace gley::daemon {

using DaysOfWeather = std::map<std::chrono::sys_days, model::DailyWeather>;

/// Past weather put into the store by day, for a station that has no readings of it. The thread of
/// its Database.
class LoadedDays {
 public:
  explicit LoadedDays(Database& database);

  /// All or nothing; days that were loaded before are replaced.
  void put(std::string_view station, const DaysOfWeather& days, Instant loaded);
  [[nodiscard]] DaysOfWeather all(std::string_view station);

 private:
  Database& database_;
  Statement put_;
  Statement all_;
};

}  // namespace gley::daemon

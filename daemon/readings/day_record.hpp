#pragma once
#include <chrono>
#include <vector>

#include "daemon/readings/farm_day.hpp"
#include "daemon/readings/reading.hpp"
#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"

namespace gley::daemon {

/// A farm day's weather at one station.
struct DayRecord {
  model::DailyWeather weather;
  model::DayFlags flags;
  bool complete = false;  ///< heard near both ends of the day, with rain and both extremes
  bool loaded = false;    ///< from a weather file, not from readings

  friend bool operator==(const DayRecord&, const DayRecord&) = default;
};

/// A station's readings for one farm day, in order of time.
struct DayReadings {
  std::vector<Reading> of_day;  ///< amounts of the day by the rule for amounts, the rest by time
  std::vector<Reading> before;  ///< the last one before the day of each source of counts or rates
};

/// Gathers readings into the day's weather. Rain and irrigation: amounts summed, counters by their
/// steps (a count that fell has restarted from 0), rates by the time since the reading before, one
/// hour at most; a count or rate that none precedes tells no amount. Temperature: extremes of two
/// readings or more. Humidity: extremes and mean, of one value the mean only. Dew point, wind:
/// mean. Radiation: mean in W/m2 over the day, or summed amounts. Sunshine: summed. Where a station
/// has several sources of one amount, the one with most readings counts; ties go by name.
[[nodiscard]] DayRecord day_record(const DayReadings& readings, std::chrono::sys_days day,
                                   const FarmCalendar& calendar);

}  // namespace gley::daemon

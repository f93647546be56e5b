#pragma once
#include <chrono>
#include <map>
#include <string>
#include <vector>

#include "daemon/readings/counter_steps.hpp"
#include "daemon/readings/doubt.hpp"
#include "daemon/readings/farm_day.hpp"
#include "daemon/readings/reading.hpp"
#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"

namespace gley::daemon {

/// A farm day's weather at one station.
struct DayRecord {
  model::DailyWeather weather;
  model::DayFlags flags;  ///< rain_partial and the *_doubtful of its readings
  bool complete = false;  ///< heard near both ends of the day, with rain and both extremes
  bool loaded = false;    ///< from a weather file, not from readings
  DoubtSet doubts = {};   ///< of its readings

  friend bool operator==(const DayRecord&, const DayRecord&) = default;
};

/// The days on record at one station, by date.
using StationRecord = std::map<std::chrono::sys_days, DayRecord>;

/// A station's readings for one farm day, in order of time.
struct DayReadings {
  std::vector<Reading> of_day;  ///< amounts of the day by the rule for amounts, the rest by time
  std::vector<Reading> before;  ///< the last one before the day of each source of counts or rates
  AcceptedQuantities accepted = {};  ///< that count whatever the checks say
  RollOvers roll_overs = {};         ///< of the counters that have one
};

/// Gathers the day's sound readings into its weather; what is doubtful is left out and named. Rain
/// and irrigation: amounts summed, counters by their steps (a count that fell has restarted from 0
/// or rolled over; a rise that cannot be is left out, and the day flagged), rates by the time since
/// the reading before, one hour at most; a count or rate that none precedes tells no amount.
/// rain_partial: amounts or rates came by the hour or faster, and then not for 6 hours.
/// Temperature: extremes of two readings or more. Humidity: extremes and mean, of one value the
/// mean only. Dew point, wind: mean. Radiation: mean in W/m2 over the day, or summed amounts.
/// Sunshine: summed. Where a station has several sources of one amount, the one with most readings
/// counts; ties go by name.
[[nodiscard]] DayRecord day_record(DayReadings readings, std::chrono::sys_days day,
                                   const FarmCalendar& calendar);

/// What is doubted of a day's readings, with sources and counts.
[[nodiscard]] std::vector<Doubt> doubts_of(DayReadings readings);

/// How many readings of a quantity each source gave, and which one an amount is taken from.
struct SourceCount {
  std::string source;
  std::size_t readings = 0;
  bool used = false;
};
/// Of the day's sound readings, by name; all are used for what is no amount.
[[nodiscard]] std::vector<SourceCount> sources_of(DayReadings readings, Quantity quantity);

}  // namespace gley::daemon

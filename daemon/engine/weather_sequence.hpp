#pragma once
#include <chrono>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "daemon/engine/today_so_far.hpp"
#include "daemon/readings/day_record.hpp"
#include "model/weather/station_day.hpp"

namespace gley::daemon {

/// The days on record at one station, by date.
using StationRecord = std::map<std::chrono::sys_days, DayRecord>;

/// A station as a source of weather for fields.
struct WeatherSource {
  std::string station;
  model::Site site;
  const StationRecord* record = nullptr;  ///< never null
};

/// What a station has on record for a date.
struct SeenDay {
  std::string station;
  DayRecord record;
};

/// What a forecast says of a day.
struct ExpectedDay {
  std::chrono::sys_days date;
  model::DailyWeather weather;
};

/// The weather of the fields that trust the same stations in the same order: day after day without
/// a gap, each made whole. Rain comes from the first station that has it, everything else from the
/// first that has temperatures.
class WeatherSequence {
 public:
  /// `sources` in order of trust, at least one.
  explicit WeatherSequence(std::vector<WeatherSource> sources);

  /// Makes the days from the first on record to `last`, anew from `from` on; earlier days stand.
  void remake(std::chrono::sys_days from, std::chrono::sys_days last);

  [[nodiscard]] const std::vector<model::StationDay>& days() const { return days_; }

  /// Today as far as it is seen; `date` follows the last of `days()`.
  [[nodiscard]] TodaySoFar so_far(std::chrono::sys_days date) const;

  /// The same made whole, with what is expected of it.
  [[nodiscard]] model::StationDay today(std::chrono::sys_days date) const;

  /// What a forecast says of one day before its end; empty: nothing.
  void expect(const std::optional<ExpectedDay>& day) { expected_ = day; }

  /// Whether any of the stations has something on record for a date.
  [[nodiscard]] bool has_record_of(std::chrono::sys_days date) const;

  /// The stations' records of a date in order of trust; stations without one are left out.
  [[nodiscard]] std::vector<SeenDay> seen_on(std::chrono::sys_days date) const;

  /// Station whose rain counts on a date; the first of trust if none has any.
  [[nodiscard]] const std::string& rain_station(std::chrono::sys_days date) const;

 private:
  /// Of the latest of `days()` that had both extremes measured.
  [[nodiscard]] std::optional<model::TemperatureRange> last_known_temperatures() const;
  [[nodiscard]] model::DailyWeather weather_of(std::chrono::sys_days date) const;
  [[nodiscard]] const DayRecord* record_of(const WeatherSource& source,
                                           std::chrono::sys_days date) const;

  std::vector<WeatherSource> sources_;
  std::vector<model::StationDay> days_;
  std::optional<ExpectedDay> expected_;
};

}  // namespace gley::daemon

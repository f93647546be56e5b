#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "daemon/engine/weather/today_so_far.hpp"
#include "daemon/engine/weather/weather_choice.hpp"
#include "daemon/readings/day_record.hpp"
#include "model/weather/station_day.hpp"

namespace gley::daemon {

/// What a station has on record for a date.
struct SeenDay {
  std::string station;
  DayRecord record;
  std::vector<Doubt> doubts = {};  ///< of the whole day; the record has those of its readings
};

/// What a forecast says of a day.
struct ExpectedDay {
  std::chrono::sys_days date;
  model::DailyWeather weather;

  friend bool operator==(const ExpectedDay&, const ExpectedDay&) = default;
};

/// The weather of the fields that trust the same stations in the same order: day after day without
/// a gap, each put together as weather_choice.hpp says and made whole. Owned by one thread.
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

  /// Which station each part of a day's weather is from; the number is its place in
  /// order of trust.
  [[nodiscard]] WeatherChoice choice(std::chrono::sys_days date, DayPart part) const {
    return choose_weather(sources_, date, part);
  }

  /// Station whose rain counts on a date; the first of trust if none has any.
  [[nodiscard]] const std::string& rain_station(std::chrono::sys_days date) const;

 private:
  /// Of the latest of `days()` that had both extremes measured.
  [[nodiscard]] std::optional<model::TemperatureRange> last_known_temperatures() const;
  [[nodiscard]] model::StationDay made_whole(model::StationDays& filling,
                                             std::chrono::sys_days date) const;
  [[nodiscard]] const DayRecord* record_of(const WeatherSource& source,
                                           std::chrono::sys_days date) const;

  std::vector<WeatherSource> sources_;
  std::vector<model::StationDay> days_;
  std::optional<ExpectedDay> expected_;
};

}  // namespace gley::daemon

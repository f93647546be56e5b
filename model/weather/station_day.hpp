#pragma once
#include <chrono>
#include <optional>

#include "model/weather/missing.hpp"
#include "model/weather/reference_et.hpp"

namespace gley::model {

/// One day's weather made whole for the balance: gaps filled and flagged, reference ET worked out.
struct StationDay {
  std::chrono::sys_days date;
  DailyWeather weather;
  ReferenceEt et;
  DayFlags flags;
};

/// Makes a station's days whole, one after the other: what is missing today may be carried over
/// from the days before, never from those after.
class StationDays {
 public:
  /// last_known: extremes of the last day before these that had both.
  explicit StationDays(const Site& site, std::optional<TemperatureRange> last_known = {})
      : site_(site), last_known_(last_known) {}

  [[nodiscard]] StationDay next(std::chrono::sys_days date, const DailyWeather& weather);

 private:
  Site site_;
  std::optional<TemperatureRange> last_known_;
};

}  // namespace gley::model

#pragma once
#include <string>
#include <vector>

#include "daemon/readings/farm_day.hpp"
#include "daemon/readings/weather_csv.hpp"

namespace gley::tests {

/// 2018 at Dublin Airport, measured by Met Éireann: see tests/data/README.md.
[[nodiscard]] daemon::WeatherByDay dublin_2018();

/// The days as a weather file.
[[nodiscard]] std::string weather_file(const daemon::WeatherByDay& days);

/// What a station would have sent of a day, as SenML packs (RFC 8428) that sum up and spread to the
/// day's numbers without rounding: rain and sunshine by the hour, or rain once at the day's end,
/// three temperatures, two winds.
class DayMessages {
 public:
  DayMessages(const daemon::WeatherByDay& days, const daemon::FarmCalendar& calendar)
      : days_(days), calendar_(calendar) {}

  [[nodiscard]] std::string rain(std::chrono::sys_days day) const;
  [[nodiscard]] std::string air(std::chrono::sys_days day) const;
  [[nodiscard]] std::string sunshine(std::chrono::sys_days day) const;

  /// All three of each day, in order; how many readings they hold is in `readings`.
  [[nodiscard]] std::vector<std::string> all(int& readings) const;

 private:
  [[nodiscard]] std::string by_the_hour(const char* name, double total, double at_most,
                                        std::chrono::sys_days day) const;

  const daemon::WeatherByDay& days_;
  const daemon::FarmCalendar& calendar_;
};

}  // namespace gley::tests

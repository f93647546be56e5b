#pragma once
#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "daemon/store/database.hpp"

namespace gley::daemon {

/// What the first forecast of a farm day said of a day to come.
struct ForecastDay {
  std::chrono::sys_days issued;  ///< farm day on which it came
  std::chrono::sys_days date;
  std::int64_t members = 1;             ///< as sent
  double rain_mm = 0.0;                 ///< mean of the members as sent
  std::optional<double> tmean_c = {};   ///< the same
  std::vector<double> rain_members_mm;  ///< of the members in use

  [[nodiscard]] long lead_days() const { return (date - issued).count(); }
};

/// Keeps what forecasts said until it can be scored. The thread of its Database.
class ForecastDayStore {
 public:
  explicit ForecastDayStore(Database& database);

  /// All of one issue; what an earlier forecast of the same farm day said stays.
  void put(const std::vector<ForecastDay>& days);
  /// For days from a date on, in order of issue, then date.
  [[nodiscard]] std::vector<ForecastDay> since(std::chrono::sys_days date);
  /// Rain of the days before a date as the day before each foresaw it: the members' median, mm.
  [[nodiscard]] std::map<std::chrono::sys_days, double> rain_foreseen(std::chrono::sys_days before);

 private:
  Database& database_;
  Statement put_;
  Statement since_;
  Statement day_before_;
};

}  // namespace gley::daemon

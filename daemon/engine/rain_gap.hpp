#pragma once
#include <chrono>
#include <string>
#include <vector>

#include "model/weather/station_day.hpp"

namespace gley::daemon {

/// Days of late whose rain is not known and counts as none.
struct RainGap {
  int days = 0;
  double wetter_mm = 0.0;  ///< how much wetter than said the soil may be
};

/// The gap of the last 60 days before a date. An ordinary day's mean rain and its spread are those
/// of the last year's known days, of 30 at least, else 2.2 and 4.5 mm, common in maritime lowland
/// (our choice); the soil may be wetter by the mean of the missing days and one standard deviation
/// of their sum.
[[nodiscard]] RainGap rain_gap(const std::vector<model::StationDay>& days,
                               std::chrono::sys_days before);

/// "rain of 3 days is not known and counts as none: the soil may be 14 mm wetter than said"
[[nodiscard]] std::string words(const RainGap& gap);

}  // namespace gley::daemon

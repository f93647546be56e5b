#pragma once
#include <chrono>
#include <string>
#include <vector>

#include "model/water/field_day.hpp"
#include "model/weather/station_day.hpp"

namespace gley::daemon {

/// Days of late whose rain is not known and counts as none.
struct RainGap {
  std::chrono::sys_days from{};  ///< the first of them
  int days = 0;
  double rain_mm = 0.0;  ///< that may have fallen on them
};

/// A field's day as it is if that rain had fallen.
struct WetterDay {
  model::FieldDay day;
  double by_mm = 0.0;  ///< how much more water the field then holds
};

/// The gap of the last 60 of these days. An ordinary day's mean rain and its spread are those of
/// the last year's known days, of 30 at least, else 2.2 and 4.5 mm, common in maritime lowland (our
/// choice); what may have fallen is the mean of the missing days and one standard deviation of
/// their sum.
[[nodiscard]] RainGap rain_gap(const std::vector<model::StationDay>& days);

/// A day of the gap with its share of that rain; any other as it is.
[[nodiscard]] model::StationDay as_if_it_rained(const RainGap& gap, model::StationDay day);

/// "rain of 3 days is not known and counts as none: the soil may be 14 mm wetter than said"
[[nodiscard]] std::string words(const RainGap& gap, double wetter_mm);

}  // namespace gley::daemon

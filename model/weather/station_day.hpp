#pragma once
#include <chrono>

#include "model/weather/reference_et.hpp"

namespace gley::model {

/// One day's weather made whole for the balance: gaps filled and flagged, reference ET worked out.
struct StationDay {
  std::chrono::sys_days date;
  DailyWeather weather;
  ReferenceEt et;
  DayFlags flags;
};

}  // namespace gley::model

#pragma once
#include <optional>
#include <vector>

#include "daemon/board/snapshot.hpp"
#include "daemon/readings/farm_day.hpp"
#include "daemon/readings/forecast_days.hpp"

namespace gley::daemon {

/// What falls by day, of today what is still to come.
[[nodiscard]] std::vector<RainAheadView> rain_by_day(const ForecastDays& ahead,
                                                     const FarmCalendar& calendar);

/// What falls within 48 hours from now; empty where the forecast stops short of that.
[[nodiscard]] std::optional<RainAheadView> rain_within_48h(const ForecastDays& ahead);

}  // namespace gley::daemon

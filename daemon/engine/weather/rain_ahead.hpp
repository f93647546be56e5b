#pragma once
#include <optional>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/readings/farm_day.hpp"
#include "daemon/readings/forecast_days.hpp"

namespace gley::daemon {

/// Rain from which a day counts as a day with rain (WMO: 1 mm, from memory).
inline constexpr double rain_day_mm = 1.0;

/// Of as much rain as that.
[[nodiscard]] double chance_of_rain(const std::vector<double>& by_member_mm);

/// What falls by day, of today what is still to come.
[[nodiscard]] std::vector<RainAheadView> rain_by_day(const ForecastDays& ahead,
                                                     const FarmCalendar& calendar);

/// What falls within 48 hours from now; empty where the forecast stops short of that.
[[nodiscard]] std::optional<RainAheadView> rain_within_48h(const ForecastDays& ahead);

}  // namespace gley::daemon

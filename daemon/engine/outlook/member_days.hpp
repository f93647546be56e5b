#pragma once
#include <vector>

#include "daemon/readings/forecast_days.hpp"
#include "model/outlook/members.hpp"

namespace gley::daemon {

/// A forecast of one member with the members that its like have had in the past (members.hpp).
/// Steps of a day keep their share of its rain; a day forecast dry has what may fall spread evenly.
/// errors: by lead day, 0 first.
[[nodiscard]] ForecastDays with_members(const ForecastDays& forecast, const FarmCalendar& calendar,
                                        const std::vector<model::LeadErrors>& errors);

}  // namespace gley::daemon

#pragma once
#include "daemon/farm/farm_config.hpp"
#include "daemon/readings/day_record.hpp"

namespace gley::daemon {

/// Where the counters among a station's readings roll over, in the readings' own unit, by what the
/// configuration says of them.
[[nodiscard]] RollOvers roll_overs_of(const StationConfig& station, const DayReadings& readings);

}  // namespace gley::daemon

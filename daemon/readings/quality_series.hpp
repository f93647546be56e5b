#pragma once
#include <vector>

#include "daemon/readings/doubt.hpp"
#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// Takes out of a station's readings of one farm day, given in order of time, what its neighbours
/// in time or its own station speak against: spikes, stuck sensors, dew points above the air's
/// temperature. Returns what was found, by source and quantity. What a person accepted is found and
/// stays. Limits: quality_limits.hpp. Amounts and counts are left alone: see counter_steps.hpp.
std::vector<Doubt> take_out_doubtful(std::vector<Reading>& of_day,
                                     const AcceptedQuantities& accepted);

}  // namespace gley::daemon

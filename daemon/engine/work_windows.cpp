#include "daemon/engine/work_windows.hpp"

namespace gley::daemon {

WorkWindows work_windows(const FarmConfig& farm, const FarmOutlook* outlook, Instant now) {
  WorkWindows out{
      .farm_id = farm.id, .farm_name = farm.name, .now = now, .made = now, .windows = {}};
  if (outlook == nullptr) return out;
  out.made = outlook->forecast_received;
  const WorkingHours hours(farm);
  for (std::size_t i = 0; i < farm.fields.size() && i < outlook->fields.size(); ++i) {
    if (!outlook->fields[i]) continue;
    const auto& machines = outlook->fields[i]->machines;
    for (std::size_t m = 0; m < farm.machines.size() && m < machines.size(); ++m)
      for (const TimeWindow& window : hours.windows(machines[m]))
        if (window.to > now)
          out.windows.push_back(
              {.field_id = farm.fields[i].id,
               .field_name = farm.fields[i].name,
               .machine_id = farm.machines[m].id,
               .machine_name = farm.machines[m].name,
               .window = {.from = window.from, .to = window.to, .probability = window.chance}});
  }
  return out;
}

}  // namespace gley::daemon

#include "daemon/engine/view/work_windows.hpp"

#include "daemon/engine/view/outlook_view.hpp"

namespace gley::daemon {

WorkWindows work_windows(const FarmConfig& farm, const FarmOutlook* outlook, Instant now) {
  WorkWindows out{
      .farm_id = farm.id, .farm_name = farm.name, .now = now, .made = now, .windows = {}};
  if (outlook == nullptr) return out;
  out.made = outlook->forecast_received;
  const WorkingHours hours(farm);
  for (std::size_t i = 0; i < farm.fields.size(); ++i) {
    const FieldDaysAhead* ahead = days_ahead_of(outlook, i);
    if (ahead == nullptr) continue;
    const auto& machines = ahead->machines;
    for (std::size_t m = 0; m < farm.machines.size() && m < machines.size(); ++m)
      for (const TimeWindow& window : hours.windows(machines[m]))
        if (window.to > now)
          out.windows.push_back({.field_id = farm.fields[i].id,
                                 .field_name = farm.fields[i].name,
                                 .machine_id = farm.machines[m].id,
                                 .machine_name = farm.machines[m].name,
                                 .window = window_view(window)});
  }
  return out;
}

}  // namespace gley::daemon

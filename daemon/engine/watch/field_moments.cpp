#include "daemon/engine/watch/field_moments.hpp"

#include <algorithm>

#include "daemon/engine/judge/judged_today.hpp"

namespace gley::daemon {

namespace {

constexpr std::size_t evenings_of_48h = 2;     // today and tomorrow
constexpr std::size_t days_of_drains_end = 5;  // today and four more

ChancesAhead ahead_of(const FieldDaysAhead& outlook) {
  ChancesAhead ahead;
  ahead.at_capacity_48h = outlook.chance_at_capacity_48h;
  ahead.heavy_rain_48h = outlook.spreading.chance_heavy_rain_48h;
  for (std::size_t d = 0; d < outlook.days.size(); ++d) {
    const model::DaySpread& day = outlook.days[d];
    if (d < evenings_of_48h) {
      ahead.runoff_48h = std::max(ahead.runoff_48h, day.chance_runoff);
      ahead.drains_48h = std::max(ahead.drains_48h, day.chance_drains_run);
      ahead.frozen_48h = std::max(ahead.frozen_48h, day.chance_frozen);
    }
    if (d > 0 && d < days_of_drains_end)
      ahead.drains_days = std::max(ahead.drains_days, day.chance_drains_run);
  }
  return ahead;
}

/// When the machine can next be put to work, and until when it can now.
void put_windows(MachineMoment& machine, const std::vector<TimeWindow>& windows,
                 const FarmOutlook& outlook, const WorkingHours& hours, Instant now) {
  const TimeWindow* current = nullptr;
  for (const TimeWindow& window : windows)
    if (window.from <= now && now < window.to) current = &window;
  if (machine.carries) {
    machine.opens = hours.open_from(now);
    if (current == nullptr) machine.closes = outlook.today_closes;
    if (current != nullptr && !current->reaches_the_end) machine.closes = current->to;
    return;
  }
  for (TimeWindow window : windows) {
    // What is closed now opens with tomorrow at the earliest.
    window.from = hours.open_from(std::max(window.from, outlook.today_ends));
    if (window.from >= window.to) continue;
    machine.opens = window.from;
    return;
  }
}

std::size_t index_of(const FarmConfig& farm, const MachineConfig* machine) {
  return static_cast<std::size_t>(machine - farm.machines.data());
}

std::vector<MachineMoment> machines_of(const MomentSources& sources, std::size_t field,
                                       const FieldDaysAhead* outlook, Instant now) {
  const FarmState& state = sources.state;
  const FieldConfig& config = state.book().config(field);
  std::vector<MachineMoment> out;
  // Of a field of which nothing is heard no verdict is known, and so no window.
  if (silence_of(state, config.stations, now)) return out;
  const JudgedDay judged = judged_today(state, field);
  const auto machines = alerted_machines(state.farm(), config);
  const auto& recent = sources.recent.of(field).machines;
  for (std::size_t m = 0; m < machines.size() && m < recent.size(); ++m) {
    MachineMoment machine{.machine = machines[m]->id,
                          .waiting = recent[m].waits(),
                          .days_carried = recent[m].days_carried()};
    if (machine.waiting) {
      machine.carries = judge(*machines[m], judged).verdict == model::Verdict::carries;
      if (machine.carries) machine.opens = sources.hours.open_from(now);
      const std::size_t place = index_of(state.farm(), machines[m]);
      if (outlook != nullptr && place < outlook->machines.size())
        put_windows(machine, outlook->machines[place], *sources.outlook, sources.hours, now);
    }
    out.push_back(std::move(machine));
  }
  return out;
}

/// Whether a material was spread on the field within so many days.
bool is_freshly_dressed(const std::vector<KeptDressing>& dressings, const std::string& field,
                        Instant now, int days) {
  return std::any_of(dressings.begin(), dressings.end(), [&](const KeptDressing& kept) {
    return kept.dressing.field == field && kept.dressing.time <= now &&
           now - kept.dressing.time < std::chrono::days{days};
  });
}

}  // namespace

std::vector<FieldMoment> field_moments(const MomentSources& sources, Instant now) {
  std::vector<FieldMoment> moments;
  const FarmState& state = sources.state;
  for (std::size_t i = 0; i < state.book().fields(); ++i) {
    if (!state.day_of(i)) continue;
    const FieldDaysAhead* outlook = days_ahead_of(sources.outlook, i);
    FieldMoment moment{.id = state.book().config(i).id, .day = *state.day_of(i)};
    moment.before = sources.recent.of(i).before;
    if (outlook != nullptr) moment.ahead = ahead_of(*outlook);
    moment.fresh_dressing = is_freshly_dressed(sources.dressings, moment.id, now,
                                               state.farm().alerts.fresh_dressing_days);
    moment.machines = machines_of(sources, i, outlook, now);
    moments.push_back(std::move(moment));
  }
  return moments;
}

}  // namespace gley::daemon

#include "daemon/engine/view/record_view.hpp"

#include "daemon/engine/judge/field_days.hpp"
#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/engine/view/board_view.hpp"
#include "daemon/engine/view/outlook_view.hpp"
#include "daemon/text/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

std::vector<NamedItem> machines_of(const FarmConfig& farm) {
  std::vector<NamedItem> names;
  names.reserve(farm.machines.size());
  for (const MachineConfig& machine : farm.machines) names.push_back({machine.id, machine.name});
  return names;
}

RecordedDay recorded(const JudgedDay& judged, const MachineVerdicts& verdicts) {
  const model::FieldDay& day = judged.day;
  RecordedDay out;
  out.date = date_text(day.date);
  out.rain_mm = day.rain_mm;
  out.irrigation_mm = day.irrigation_mm;
  out.et0_mm = day.et0_mm;
  out.et_mm = day.fluxes.evaporation_mm + day.fluxes.transpiration_mm;
  out.runoff_mm = day.fluxes.runoff_mm;
  out.drainage_mm = day.fluxes.drainage_mm + day.fluxes.pipe_drain_mm;
  out.depletion_mm = day.depletion_mm;
  out.topsoil_deficit_mm = day.topsoil_deficit_mm;
  out.surplus_mm = day.surplus_mm;
  out.pond_mm = day.evening.water.pond_mm;
  out.drains_running = model::drains_run(day);
  out.wetness = model::to_word(day.wetness);
  out.theta = theta_by_layer(judged.field.parameters.soil, day.evening.water);
  for (const model::Verdict verdict : verdicts.on(judged))
    out.verdicts.emplace_back(model::to_word(verdict));
  return out;
}

std::vector<WindowView> views(const std::vector<TimeWindow>& windows) {
  std::vector<WindowView> out;
  out.reserve(windows.size());
  for (const TimeWindow& window : windows) out.push_back(window_view(window));
  return out;
}

std::vector<ComingDay> coming(const FieldDaysAhead& ahead, std::chrono::sys_days today) {
  std::vector<ComingDay> out;
  for (std::size_t d = 0; d < ahead.days.size(); ++d) {
    const model::DaySpread& day = ahead.days[d];
    ComingDay own{.date = date_text(today + std::chrono::days{static_cast<int>(d)}),
                  .rain_mm = day.rain_mm,
                  .depletion_mm = day.depletion_mm,
                  .topsoil_deficit_mm = day.topsoil_deficit_mm,
                  .surplus_mm = day.surplus_mm,
                  .chance_at_capacity = day.chance_at_capacity,
                  .chance_drains_run = day.chance_drains_run,
                  .machine_chance = {}};
    for (const auto& chances : ahead.machine_chance) own.machine_chance.push_back(chances[d]);
    out.push_back(std::move(own));
  }
  return out;
}

}  // namespace

FieldRecord record_of(const FarmState& state, std::size_t field, const DayRange& range) {
  const MachineVerdicts verdicts(state.farm());
  FieldRecord record;
  record.machines = machines_of(state.farm());
  each_judged_day(state.book(), field, range, [&](const JudgedDay& judged) {
    record.days.push_back(recorded(judged, verdicts));
  });
  const std::chrono::sys_days today = state.today();
  const bool wanted = range.from.value_or(today) <= today && today <= range.to.value_or(today);
  if (state.day_of(field) && wanted) {
    record.days.push_back(recorded(judged_today(state, field), verdicts));
    record.days.back().so_far = true;
  }
  record.layers =
      layer_views(state.book().history(field).field().parameters.soil,
                  record.days.empty() ? std::vector<double>{} : record.days.back().theta);
  return record;
}

std::optional<FieldAheadView> ahead_of(const FarmState& state, std::size_t field,
                                       const FarmOutlook& outlook) {
  const FieldDaysAhead* ahead = days_ahead_of(&outlook, field);
  if (ahead == nullptr) return {};
  FieldAheadView out;
  out.made = outlook.made;
  out.forecast_received = outlook.forecast_received;
  out.members = outlook.members;
  out.machines = machines_of(state.farm());
  out.days = coming(*ahead, outlook.today);
  for (std::size_t i = 0; i < ahead->machines.size(); ++i)
    out.machine_windows.push_back({out.machines[i], views(ahead->machines[i])});
  for (std::size_t i = 0; i < ahead->materials.size(); ++i) {
    const MaterialConfig& material = state.farm().materials[i];
    out.material_windows.push_back({{material.id, material.name}, views(ahead->materials[i])});
  }
  return out;
}

}  // namespace gley::daemon

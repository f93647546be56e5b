#include "daemon/engine/record_view.hpp"

#include <algorithm>

#include "daemon/engine/board_view.hpp"
#include "daemon/engine/field_days.hpp"
#include "daemon/readings/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

std::vector<NamedItem> machines_of(const FarmConfig& farm) {
  std::vector<NamedItem> names;
  names.reserve(farm.machines.size());
  for (const MachineConfig& machine : farm.machines) names.push_back({machine.id, machine.name});
  return names;
}

RecordedDay recorded(const JudgedDay& judged, const MachineWords& words) {
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
  const model::SoilProfile& soil = judged.field.parameters.soil;
  for (int l = 0; l < soil.layers; ++l)
    out.theta.push_back(model::theta_of(soil, day.evening.water, l));
  for (const model::Verdict verdict : words.on(judged))
    out.verdicts.emplace_back(model::to_word(verdict));
  return out;
}

std::vector<LayerView> layers_on(const model::Field& field, const std::vector<double>& theta) {
  std::vector<LayerView> layers;
  const model::SoilProfile& soil = field.parameters.soil;
  layers.reserve(static_cast<std::size_t>(soil.layers));
  for (int l = 0; l < soil.layers; ++l)
    layers.push_back({.thickness_mm = soil.thickness_mm[l],
                      .theta = static_cast<std::size_t>(l) < theta.size() ? theta[l] : 0.0,
                      .wilting_point = soil.horizon[l].wilting_point,
                      .field_capacity = soil.horizon[l].field_capacity,
                      .saturation = soil.horizon[l].saturation});
  return layers;
}

SpreadView view(const model::Spread& spread) {
  return {.low = spread.low, .middle = spread.middle, .high = spread.high};
}

std::vector<WindowView> views(const std::vector<TimeWindow>& windows) {
  std::vector<WindowView> out;
  out.reserve(windows.size());
  for (const TimeWindow& window : windows)
    out.push_back({.from = window.from, .to = window.to, .probability = window.chance});
  return out;
}

std::vector<ComingDay> coming(const FieldDaysAhead& ahead, std::chrono::sys_days today) {
  std::vector<ComingDay> out;
  for (std::size_t d = 0; d < ahead.days.size(); ++d) {
    const model::DaySpread& day = ahead.days[d];
    ComingDay own{.date = date_text(today + std::chrono::days{static_cast<int>(d)}),
                  .rain_mm = view(day.rain_mm),
                  .depletion_mm = view(day.depletion_mm),
                  .topsoil_deficit_mm = view(day.topsoil_deficit_mm),
                  .surplus_mm = view(day.surplus_mm),
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
  const model::Field& model_field = state.book().history(field).field();
  const MachineWords words(state.farm());
  FieldRecord record;
  record.machines = machines_of(state.farm());
  if (const auto all = dates_of(state.book(), field)) {
    const DateSpan span{
        .from = range.from ? std::max(std::chrono::sys_days{*range.from}, all->from) : all->from,
        .to = range.to ? std::chrono::sys_days{*range.to} : all->to};
    each_judged_day(state.book(), field, span, [&](const JudgedDay& judged) {
      record.days.push_back(recorded(judged, words));
    });
  }
  const std::chrono::sys_days today = state.today();
  const bool wanted = (!range.from || std::chrono::sys_days{*range.from} <= today) &&
                      (!range.to || std::chrono::sys_days{*range.to} >= today);
  if (const auto& day = state.day_of(field); day && wanted) {
    record.days.push_back(recorded(
        {.field = model_field, .day = *day, .before = ground_before(state, field)}, words));
    record.days.back().so_far = true;
  }
  record.layers = layers_on(model_field,
                            record.days.empty() ? std::vector<double>{} : record.days.back().theta);
  return record;
}

std::optional<FieldAheadView> ahead_of(const FarmState& state, std::size_t field,
                                       const FarmOutlook& outlook) {
  if (field >= outlook.fields.size() || !outlook.fields[field]) return {};
  const FieldDaysAhead& ahead = *outlook.fields[field];
  FieldAheadView out;
  out.made = outlook.made;
  out.forecast_received = outlook.forecast_received;
  out.members = outlook.members;
  out.machines = machines_of(state.farm());
  out.days = coming(ahead, outlook.today);
  for (std::size_t i = 0; i < ahead.machines.size(); ++i)
    out.machine_windows.push_back({out.machines[i], views(ahead.machines[i])});
  for (std::size_t i = 0; i < ahead.materials.size(); ++i) {
    const MaterialConfig& material = state.farm().materials[i];
    out.material_windows.push_back({{material.id, material.name}, views(ahead.materials[i])});
  }
  return out;
}

}  // namespace gley::daemon

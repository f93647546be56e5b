#include "daemon/engine/view/board_view.hpp"

#include <algorithm>

#include "daemon/engine/judge/field_words.hpp"
#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/engine/outlook/judged_with_outlook.hpp"
#include "daemon/engine/view/outlook_view.hpp"
#include "daemon/engine/watch/alert_view.hpp"
#include "daemon/engine/watch/doubt_view.hpp"
#include "daemon/farm/field_setup.hpp"
#include "daemon/text/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

std::vector<std::string> split_words(const std::string& joined) {
  std::vector<std::string> words;
  std::size_t start = 0;
  while (start < joined.size()) {
    const std::size_t end = std::min(joined.find(';', start), joined.size());
    words.push_back(joined.substr(start, end - start));
    start = end + 1;
  }
  return words;
}

void show_water(FieldView& view, const model::Field& field, const model::FieldDay& day) {
  view.known = true;
  view.date = date_text(day.date);
  view.wetness = model::to_word(day.wetness);
  view.depletion_mm = day.depletion_mm;
  view.topsoil_deficit_mm = day.topsoil_deficit_mm;
  view.surplus_mm = day.surplus_mm;
  view.pond_mm = day.evening.water.pond_mm;
  view.snow_mm = day.evening.snow.snow_mm;
  view.rain_today_mm = day.rain_mm;
  view.et0_mm = day.et0_mm;
  view.drains_running = model::drains_run(day);
  const model::SoilProfile& soil = field.parameters.soil;
  view.layers = layer_views(soil, theta_by_layer(soil, day.evening.water));
  view.flags = split_words(model::to_words(day.flags));
  view.reasons = wetness_reasons(field, day);
}

void show_nothing_known(FieldView& view, const FarmConfig& farm) {
  const std::string not_known(model::to_word(model::Verdict::not_known));
  const std::vector<std::string> reasons{"no weather is known for this field yet"};
  for (const MachineConfig& machine : farm.machines)
    view.machines.push_back({machine.id, machine.name, not_known, {}, reasons, {}});
  for (const MaterialConfig& material : farm.materials)
    view.spreading.push_back({material.id, material.name, not_known, reasons, {}});
  view.sign = not_known;
}

std::string sign_of(const FieldView& view) {
  const MachineView* own = with_id(view.machines, view.sign_machine);
  return own != nullptr ? own->verdict : std::string(model::to_word(model::Verdict::not_known));
}

}  // namespace

std::vector<double> theta_by_layer(const model::SoilProfile& soil,
                                   const model::FieldWater<double>& water) {
  std::vector<double> theta;
  theta.reserve(static_cast<std::size_t>(soil.layers));
  for (int l = 0; l < soil.layers; ++l) theta.push_back(model::theta_of(soil, water, l));
  return theta;
}

std::vector<LayerView> layer_views(const model::SoilProfile& soil,
                                   const std::vector<double>& theta) {
  std::vector<LayerView> layers;
  layers.reserve(static_cast<std::size_t>(soil.layers));
  for (int l = 0; l < soil.layers; ++l)
    layers.push_back({.thickness_mm = soil.thickness_mm[l],
                      .theta = static_cast<std::size_t>(l) < theta.size() ? theta[l] : 0.0,
                      .wilting_point = soil.horizon[l].wilting_point,
                      .field_capacity = soil.horizon[l].field_capacity,
                      .saturation = soil.horizon[l].saturation});
  return layers;
}

FieldView field_view(const FarmState& state, std::size_t index, Instant now,
                     const FarmOutlook* outlook) {
  const FieldConfig& config = state.book().config(index);
  const model::Field& field = state.book().history(index).field();
  FieldView view;
  view.id = config.id;
  view.name = config.name;
  view.soil = soil_in_words(config.soil);
  view.crop = field.crops.on(state.today()).course.name;
  view.drainage = to_word(config.drainage);
  view.slope_pct = config.slope_pct;
  view.area_ha = config.area_ha;
  view.station = state.book().weather(index).rain_station(state.today());
  view.sign_machine = sign_machine(state.farm(), config).value_or("");
  if (!state.day_of(index)) {
    show_nothing_known(view, state.farm());
    return view;
  }
  const model::FieldDay& day = *state.day_of(index);
  show_water(view, field, day);
  const JudgedDay judged = judged_with_outlook(state, index, now, outlook);
  if (judged.if_wetter != nullptr) {
    view.uncertainty_mm = judged.if_wetter->by_mm;
    view.reasons.push_back(words(state.book().rain_gap(index), *view.uncertainty_mm));
  }
  view.machines = machine_views(state.farm(), judged);
  view.spreading = spreading_views(state.farm(), config, judged);
  if (outlook != nullptr) show_outlook(view, *outlook, index, now);
  view.sign = sign_of(view);
  return view;
}

BoardSnapshot board_without_fields(const FarmState& state, const std::vector<Alert>& alerts,
                                   Instant now) {
  const FarmConfig& farm = state.farm();
  BoardSnapshot board;
  board.farm_id = farm.id;
  board.farm_name = farm.name;
  board.time_zone = farm.time_zone;
  board.time = now;
  board.takes_writes = farm.http.token_file.has_value();
  board.has_plan = std::any_of(farm.fields.begin(), farm.fields.end(),
                               [](const FieldConfig& field) { return field.shape.has_value(); });
  const std::set<std::string> silent = silent_stations(state, now);
  for (const StationConfig& station : farm.stations) {
    const auto heard = state.keeper().last_heard().find(station.id);
    StationView view{.id = station.id, .last_heard = {}, .silent = silent.count(station.id) > 0};
    if (heard != state.keeper().last_heard().end()) view.last_heard = heard->second;
    view.doubts = doubts_of_station(state, station.id);
    if (const auto behind = state.keeper().clocks().behind(station.id, now))
      view.clock_behind_min = behind->count();
    board.stations.push_back(std::move(view));
  }
  for (const Alert& alert : alerts) board.alerts.push_back(alert_view(alert, farm));
  return board;
}

BoardSnapshot board_of(const FarmState& state, const std::vector<Alert>& alerts, Instant now,
                       const FarmOutlook* outlook) {
  BoardSnapshot board = board_without_fields(state, alerts, now);
  for (std::size_t i = 0; i < state.book().fields(); ++i)
    board.fields.push_back(field_view(state, i, now, outlook));
  return board;
}

}  // namespace gley::daemon

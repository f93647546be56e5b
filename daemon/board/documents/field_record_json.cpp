#include "daemon/board/documents/field_record_json.hpp"

#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/local_time.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

constexpr double finest_mm = 0.01;
constexpr double finest_theta = 0.0001;
constexpr double finest_chance = 0.01;

Json item(const NamedItem& named) {
  return {{"id", named.id}, {"name", named.name}};
}

Json layer_objects(const FieldRecord& record) {
  Json layers = Json::array();
  for (std::size_t l = 0; l < record.layers.size(); ++l) {
    const LayerView& layer = record.layers[l];
    Json theta = json_list(
        record.days, [l](const RecordedDay& day) { return round_to(day.theta[l], finest_theta); });
    layers.push_back({{"thickness_mm", round_to(layer.thickness_mm, 1.0)},
                      {"wilting_point", round_to(layer.wilting_point, finest_theta)},
                      {"field_capacity", round_to(layer.field_capacity, finest_theta)},
                      {"saturation", round_to(layer.saturation, finest_theta)},
                      {"theta", std::move(theta)}});
  }
  return layers;
}

Json machine_objects(const FieldRecord& record) {
  Json machines = Json::array();
  for (std::size_t m = 0; m < record.machines.size(); ++m) {
    Json machine = item(record.machines[m]);
    machine["verdict"] =
        json_list(record.days, [m](const RecordedDay& day) { return day.verdicts[m]; });
    machines.push_back(std::move(machine));
  }
  return machines;
}

Json spreads(const std::vector<ComingDay>& days, model::Spread ComingDay::*member) {
  const auto of = [&](double model::Spread::*part) {
    return json_list(
        days, [&](const ComingDay& day) { return round_to((day.*member).*part, finest_mm); });
  };
  return {{"low", of(&model::Spread::low)},
          {"middle", of(&model::Spread::middle)},
          {"high", of(&model::Spread::high)}};
}

Json window_object(const WindowView& window) {
  return {{"from", rfc3339(window.from)},
          {"to", rfc3339(window.to)},
          {"probability", round_to(window.probability, finest_chance)}};
}

Json windows_of(const WindowsOf& own) {
  Json out = item(own.item);
  out["windows"] = json_list(own.windows, window_object);
  return out;
}

Json coming_machines(const FieldAheadView& ahead) {
  Json out = Json::array();
  for (std::size_t m = 0; m < ahead.machines.size(); ++m) {
    Json machine = item(ahead.machines[m]);
    machine["carried"] = json_list(ahead.days, [m](const ComingDay& day) {
      return round_to(day.machine_chance[m], finest_chance);
    });
    out.push_back(std::move(machine));
  }
  return out;
}

Json sums_object(const SeasonSums& sums, const std::vector<NamedItem>& machines) {
  Json carried = Json::object();
  for (std::size_t m = 0; m < machines.size() && m < sums.days_carried.size(); ++m)
    carried[machines[m].id] = sums.days_carried[m];
  return {{"days", sums.days},
          {"rain_mm", round_to(sums.rain_mm, finest_mm)},
          {"irrigation_mm", round_to(sums.irrigation_mm, finest_mm)},
          {"et_mm", round_to(sums.et_mm, finest_mm)},
          {"runoff_mm", round_to(sums.runoff_mm, finest_mm)},
          {"drainage_mm", round_to(sums.drainage_mm, finest_mm)},
          {"days_at_field_capacity", sums.days_at_capacity},
          {"days_waterlogged", sums.days_waterlogged},
          {"days_short_of_water", sums.days_short_of_water},
          {"days_drains_ran", sums.days_drains_ran},
          {"days_carried", std::move(carried)}};
}

Json rounded(const std::vector<double>& values) {
  return json_list(values, [](double value) { return round_to(value, 0.1); });
}

}  // namespace

std::string record_json(const FieldRecord& record) {
  const auto each = [&](auto of) { return json_list(record.days, of); };
  const auto mm = [&](double RecordedDay::*member) {
    return each([member](const RecordedDay& day) { return round_to(day.*member, finest_mm); });
  };
  return json_text(Json{{"date", each([](const RecordedDay& day) { return day.date; })},
                        {"last_is_so_far", !record.days.empty() && record.days.back().so_far},
                        {"rain_mm", mm(&RecordedDay::rain_mm)},
                        {"irrigation_mm", mm(&RecordedDay::irrigation_mm)},
                        {"et0_mm", mm(&RecordedDay::et0_mm)},
                        {"et_mm", mm(&RecordedDay::et_mm)},
                        {"runoff_mm", mm(&RecordedDay::runoff_mm)},
                        {"drainage_mm", mm(&RecordedDay::drainage_mm)},
                        {"depletion_mm", mm(&RecordedDay::depletion_mm)},
                        {"topsoil_deficit_mm", mm(&RecordedDay::topsoil_deficit_mm)},
                        {"surplus_mm", mm(&RecordedDay::surplus_mm)},
                        {"pond_mm", mm(&RecordedDay::pond_mm)},
                        {"drains", each([](const RecordedDay& day) {
                           return day.drains_running ? "running" : "dry";
                         })},
                        {"wetness", each([](const RecordedDay& day) { return day.wetness; })},
                        {"layers", layer_objects(record)},
                        {"machines", machine_objects(record)}});
}

std::string ahead_json(const std::optional<FieldAheadView>& ahead) {
  if (!ahead) return "null";
  const auto chance = [&](double ComingDay::*member) {
    return json_list(ahead->days, [member](const ComingDay& day) {
      return round_to(day.*member, finest_chance);
    });
  };
  return json_text(
      Json{{"made", rfc3339(ahead->made)},
           {"forecast_time", rfc3339(ahead->forecast_received)},
           {"members", ahead->members},
           {"spread", "low and high: one in ten members lies beyond"},
           {"date", json_list(ahead->days, [](const ComingDay& day) { return day.date; })},
           {"rain_mm", spreads(ahead->days, &ComingDay::rain_mm)},
           {"depletion_mm", spreads(ahead->days, &ComingDay::depletion_mm)},
           {"topsoil_deficit_mm", spreads(ahead->days, &ComingDay::topsoil_deficit_mm)},
           {"surplus_mm", spreads(ahead->days, &ComingDay::surplus_mm)},
           {"at_field_capacity", chance(&ComingDay::chance_at_capacity)},
           {"drains_running", chance(&ComingDay::chance_drains_run)},
           {"machines", coming_machines(*ahead)},
           {"machine_windows", json_list(ahead->machine_windows, windows_of)},
           {"material_windows", json_list(ahead->material_windows, windows_of)}});
}

std::string seasons_json(const SeasonsView& view) {
  const auto season_object = [&](const SeasonView& season) {
    return Json{{"harvest_year", season.harvest_year},
                {"from", season.from},
                {"to", season.to},
                {"days_missing", season.days_missing},
                {"whole", sums_object(season.whole, view.machines)},
                {"to_date", sums_object(season.to_date, view.machines)},
                {"first_day", season.first_day},
                {"rain_sum_mm", rounded(season.rain_sum_mm)},
                {"drainage_sum_mm", rounded(season.drain_sum_mm)}};
  };
  return json_text(Json{{"season_begins", view.begins},
                        {"to_date", view.last_day.empty() ? Json(nullptr) : Json(view.last_day)},
                        {"machines", json_list(view.machines, item)},
                        {"seasons", json_list(view.seasons, season_object)}});
}

}  // namespace gley::daemon

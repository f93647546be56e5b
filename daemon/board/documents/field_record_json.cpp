#include "daemon/board/documents/field_record_json.hpp"

#include <nlohmann/json.hpp>

#include "daemon/board/words/figure_text.hpp"
#include "daemon/board/words/local_time.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

constexpr double finest_mm = 0.01;
constexpr double finest_theta = 0.0001;
constexpr double finest_chance = 0.01;

std::string dump(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json items(const std::vector<NamedItem>& named) {
  Json out = Json::array();
  for (const NamedItem& item : named) out.push_back({{"id", item.id}, {"name", item.name}});
  return out;
}

/// One array of a number of each row.
template <class Row>
Json column(const std::vector<Row>& rows, double Row::*member) {
  Json out = Json::array();
  for (const Row& row : rows) out.push_back(round_to(row.*member, finest_mm));
  return out;
}

Json layer_objects(const FieldRecord& record) {
  Json layers = Json::array();
  for (std::size_t l = 0; l < record.layers.size(); ++l) {
    const LayerView& layer = record.layers[l];
    Json theta = Json::array();
    for (const RecordedDay& day : record.days)
      theta.push_back(round_to(day.theta[l], finest_theta));
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
    Json verdicts = Json::array();
    for (const RecordedDay& day : record.days) verdicts.push_back(day.verdicts[m]);
    machines.push_back({{"id", record.machines[m].id},
                        {"name", record.machines[m].name},
                        {"verdict", std::move(verdicts)}});
  }
  return machines;
}

Json spreads(const std::vector<ComingDay>& days, SpreadView ComingDay::*member) {
  Json low = Json::array();
  Json middle = Json::array();
  Json high = Json::array();
  for (const ComingDay& day : days) {
    low.push_back(round_to((day.*member).low, finest_mm));
    middle.push_back(round_to((day.*member).middle, finest_mm));
    high.push_back(round_to((day.*member).high, finest_mm));
  }
  return {{"low", low}, {"middle", middle}, {"high", high}};
}

Json window_objects(const std::vector<WindowsOf>& all) {
  Json out = Json::array();
  for (const WindowsOf& own : all) {
    Json windows = Json::array();
    for (const WindowView& window : own.windows)
      windows.push_back({{"from", rfc3339(window.from)},
                         {"to", rfc3339(window.to)},
                         {"probability", round_to(window.probability, finest_chance)}});
    out.push_back({{"id", own.item.id}, {"name", own.item.name}, {"windows", std::move(windows)}});
  }
  return out;
}

Json coming_machines(const FieldAheadView& ahead) {
  Json out = Json::array();
  for (std::size_t m = 0; m < ahead.machines.size(); ++m) {
    Json chance = Json::array();
    for (const ComingDay& day : ahead.days)
      chance.push_back(round_to(day.machine_chance[m], finest_chance));
    out.push_back(
        {{"id", ahead.machines[m].id}, {"name", ahead.machines[m].name}, {"carried", chance}});
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
  Json out = Json::array();
  for (const double value : values) out.push_back(round_to(value, 0.1));
  return out;
}

}  // namespace

std::string record_json(const FieldRecord& record) {
  Json dates = Json::array();
  Json wetness = Json::array();
  Json drains = Json::array();
  for (const RecordedDay& day : record.days) {
    dates.push_back(day.date);
    wetness.push_back(day.wetness);
    drains.push_back(day.drains_running ? "running" : "dry");
  }
  const auto of = [&](double RecordedDay::*member) { return column(record.days, member); };
  return dump({{"date", std::move(dates)},
               {"last_is_so_far", !record.days.empty() && record.days.back().so_far},
               {"rain_mm", of(&RecordedDay::rain_mm)},
               {"irrigation_mm", of(&RecordedDay::irrigation_mm)},
               {"et0_mm", of(&RecordedDay::et0_mm)},
               {"et_mm", of(&RecordedDay::et_mm)},
               {"runoff_mm", of(&RecordedDay::runoff_mm)},
               {"drainage_mm", of(&RecordedDay::drainage_mm)},
               {"depletion_mm", of(&RecordedDay::depletion_mm)},
               {"topsoil_deficit_mm", of(&RecordedDay::topsoil_deficit_mm)},
               {"surplus_mm", of(&RecordedDay::surplus_mm)},
               {"pond_mm", of(&RecordedDay::pond_mm)},
               {"drains", std::move(drains)},
               {"wetness", std::move(wetness)},
               {"layers", layer_objects(record)},
               {"machines", machine_objects(record)}});
}

std::string ahead_json(const std::optional<FieldAheadView>& ahead) {
  if (!ahead) return "null";
  Json dates = Json::array();
  Json at_capacity = Json::array();
  Json drains = Json::array();
  for (const ComingDay& day : ahead->days) {
    dates.push_back(day.date);
    at_capacity.push_back(round_to(day.chance_at_capacity, finest_chance));
    drains.push_back(round_to(day.chance_drains_run, finest_chance));
  }
  return dump({{"made", rfc3339(ahead->made)},
               {"forecast_time", rfc3339(ahead->forecast_received)},
               {"members", ahead->members},
               {"spread", "low and high: one in ten members lies beyond"},
               {"date", std::move(dates)},
               {"rain_mm", spreads(ahead->days, &ComingDay::rain_mm)},
               {"depletion_mm", spreads(ahead->days, &ComingDay::depletion_mm)},
               {"topsoil_deficit_mm", spreads(ahead->days, &ComingDay::topsoil_deficit_mm)},
               {"surplus_mm", spreads(ahead->days, &ComingDay::surplus_mm)},
               {"at_field_capacity", std::move(at_capacity)},
               {"drains_running", std::move(drains)},
               {"machines", coming_machines(*ahead)},
               {"machine_windows", window_objects(ahead->machine_windows)},
               {"material_windows", window_objects(ahead->material_windows)}});
}

std::string seasons_json(const SeasonsView& view) {
  Json seasons = Json::array();
  for (const SeasonView& season : view.seasons)
    seasons.push_back({{"harvest_year", season.harvest_year},
                       {"from", season.from},
                       {"to", season.to},
                       {"days_missing", season.days_missing},
                       {"whole", sums_object(season.whole, view.machines)},
                       {"to_date", sums_object(season.to_date, view.machines)},
                       {"first_day", season.first_day},
                       {"rain_sum_mm", rounded(season.rain_sum_mm)},
                       {"drainage_sum_mm", rounded(season.drain_sum_mm)}});
  return dump({{"season_begins", view.begins},
               {"to_date", view.last_day.empty() ? Json(nullptr) : Json(view.last_day)},
               {"machines", items(view.machines)},
               {"seasons", std::move(seasons)}});
}

}  // namespace gley::daemon

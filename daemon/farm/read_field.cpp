#include <algorithm>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/land_measure.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {
namespace {

void read_stations(const TableReader& table, FieldConfig& field, ConfigDraft& draft) {
  const FilePlace place = table.place("station");
  for (const TextAt& station : table.texts("station")) {
    if (std::find(field.stations.begin(), field.stations.end(), station.text) !=
        field.stations.end()) {
      table.problem("station", "names \"" + station.text + "\" twice; remove one");
      continue;
    }
    field.stations.push_back(station.text);
    draft.stations_used.push_back({.name = station.text,
                                   .label = table.label() + ": station",
                                   .place = {.file = place.file, .line = station.line}});
  }
  const toml::node* value = table.node("station");
  const bool empty_list = value != nullptr && value->is_array() && value->as_array()->empty();
  if (empty_list) table.problem("station", "is an empty list; name at least one station");
}

void read_numbers(const TableReader& table, FieldConfig& field) {
  field.rew_mm = table.number("rew_mm");
  field.tew_mm = table.number("tew_mm");
  field.area_ha = table.number("area_ha");
  table.assign(field.slope_pct, table.number("slope_pct"));
  field.soil_depth_mm = table.number("soil_depth_mm");
  field.slow_layer_depth_mm = table.number("slow_layer_depth_mm");
  field.root_depth_mm = table.number("root_depth_mm");
  field.start_depletion_mm = table.number("start_depletion_mm");
  field.pipe_rate_mm_d = table.number("pipe_rate_mm_d");
  field.water_distance_m = table.number("water_distance_m");
  field.water_edge_m = table.number("water_edge_m");
  field.spring_distance_m = table.number("spring_distance_m");
}

void check_not_deeper(const TableReader& table, const char* key,
                      const std::optional<double>& depth_mm,
                      const std::optional<double>& soil_depth_mm) {
  if (!depth_mm || !soil_depth_mm || *depth_mm <= *soil_depth_mm) return;
  table.problem(key, "is " + number_text(*depth_mm) + " and soil_depth_mm " +
                         number_text(*soil_depth_mm) + "; it must not be below the soil");
}

/// A field's roots may be given once: with the field, or with its crop.
void check_roots_once(const TableReader& table, const FieldConfig& field,
                      const std::optional<double>& crops_own_mm) {
  if (!field.root_depth_mm || !crops_own_mm || *field.root_depth_mm == *crops_own_mm) return;
  table.problem("root_depth_mm", "is " + number_text(*field.root_depth_mm) +
                                     " and the crop's own " + number_text(*crops_own_mm) +
                                     "; remove this one");
}

void check_depths(const TableReader& table, const FieldConfig& field) {
  check_not_deeper(table, "root_depth_mm", field.root_depth_mm, field.soil_depth_mm);
  check_not_deeper(table, "slow_layer_depth_mm", field.slow_layer_depth_mm, field.soil_depth_mm);
  if (const auto* sowings = std::get_if<std::vector<CropSowing>>(&field.crop)) {
    for (const CropSowing& sowing : *sowings)
      check_roots_once(table, field, sowing.own.root_depth_mm);
    return;
  }
  const auto* crop = std::get_if<CropByNumbers>(&field.crop);
  if (crop == nullptr) return;
  if (field.soil_depth_mm && crop->root_depth_mm > *field.soil_depth_mm) {
    table.problem("crop", "has root_depth_mm " + number_text(crop->root_depth_mm) +
                              " and soil_depth_mm is " + number_text(*field.soil_depth_mm) +
                              "; roots must not be below the soil");
  }
  check_roots_once(table, field, crop->root_depth_mm);
}

void check_surface(const TableReader& table, const FieldConfig& field) {
  if (field.rew_mm && field.tew_mm && *field.rew_mm > *field.tew_mm) {
    table.problem("rew_mm", "is " + number_text(*field.rew_mm) + " and tew_mm " +
                                number_text(*field.tew_mm) + "; rew_mm must not be the larger");
  }
}

}  // namespace

void read_field(const TableReader& table, ConfigDraft& draft) {
  FieldConfig field;
  read_identity(table, field);
  read_stations(table, field, draft);
  field.soil = read_soil(table);
  table.assign(field.drainage, table.word<DrainageClass>("drainage"));
  field.crop = read_crop(table);
  field.irrigation = read_irrigation(table);
  table.assign(field.textbook, table.truth("textbook"));
  table.assign(field.pipe_drains, table.truth("pipe_drains"));
  read_numbers(table, field);
  field.shape = read_boundary(table);
  if (field.shape && !field.area_ha) field.area_ha = area_ha(*field.shape);
  field.sign_machine = table.text("sign_machine");
  if (field.sign_machine) {
    draft.machines_used.push_back({.name = *field.sign_machine,
                                   .label = table.label() + ": sign_machine",
                                   .place = table.place("sign_machine")});
  }
  check_depths(table, field);
  check_surface(table, field);
  if (field.pipe_rate_mm_d && !table.has("pipe_drains")) {
    table.problem("pipe_rate_mm_d",
                  "stands without pipe_drains; write pipe_drains = true, or "
                  "false if they do not work");
  }
  draft.farm.fields.push_back(std::move(field));
}

}  // namespace gley::daemon

#include "daemon/farm/field_setup.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/farm/crop_setup.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "daemon/farm/soil_setup.hpp"

namespace gley::daemon {

namespace {

/// Depth of the default layers together; a soil with deeper roots is taken as deeper.
constexpr double default_soil_depth_mm = 1300.0;

std::string whole(double value) {
  return std::to_string(std::lround(value));
}

}  // namespace

model::Field field_of(const FieldConfig& config) {
  const FieldSoil soil = soil_of(config);
  const double depth_mm =
      config.soil_depth_mm.value_or(std::max(default_soil_depth_mm, deepest_roots_mm(config)));

  model::FieldDescription description;
  description.soil = model::profile_of(soil.topsoil, soil.subsoil, soil.clay_pct, depth_mm);
  description.drainage = config.drainage;
  description.slow_layer_depth_mm = config.slow_layer_depth_mm;
  if (config.pipe_drains)
    description.pipes = model::PipeDrains{
        .rate_mm_d = config.pipe_rate_mm_d.value_or(model::default_pipe_rate_mm_d)};
  description.slope_pct = config.slope_pct;
  description.rew_mm = config.rew_mm.value_or(soil.rew_mm);
  description.tew_mm = config.tew_mm;
  description.textbook = config.textbook;

  model::Field field;
  field.parameters = model::field_parameters(description);
  field.crops = crops_of(config, soil.hydrologic_group);
  field.textbook = config.textbook;
  if (config.irrigation) {
    const IrrigationRow& method =
        *find_row(reference_tables().irrigation_methods, config.irrigation->method);
    field.irrigation_wetted_fraction =
        config.irrigation->wetted_fraction.value_or(method.wetted_fraction);
    field.drip_lines = method.under_crop;
  }
  field.start_depletion_mm = config.start_depletion_mm;
  return field;
}

model::SpreadingPlace spreading_place_of(const FieldConfig& config) {
  return {.slope_pct = config.slope_pct,
          .water_distance_m = config.water_distance_m,
          .spring_distance_m = config.spring_distance_m,
          .water_edge_m = config.water_edge_m,
          .area_ha = config.area_ha};
}

std::string soil_in_words(const SoilConfig& soil) {
  if (const auto* named = std::get_if<SoilByClass>(&soil)) return named->name;
  if (const auto* texture = std::get_if<SoilByTexture>(&soil))
    return "sand " + whole(texture->sand_pct) + " %, clay " + whole(texture->clay_pct) + " %";
  const auto& numbers = std::get<SoilByNumbers>(soil);
  return "holds " + whole(100.0 * numbers.field_capacity) + " % water at field capacity";
}

}  // namespace gley::daemon

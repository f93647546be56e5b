#include "daemon/farm/soil_setup.hpp"

#include "daemon/farm/reference_tables.hpp"
#include "model/soil/retention.hpp"
#include "model/soil/texture_class.hpp"

namespace gley::daemon {

namespace {

/// FAO-56 Table 19, middle of the loams: for a soil of which only three water contents are known.
constexpr double rew_of_a_loam_mm = 9.0;
/// A clay content for such a soil that lets no water through cracks.
constexpr double clay_unknown_pct = 0.0;

bool lets_water_through(DrainageClass drainage) {
  return drainage == DrainageClass::free || drainage == DrainageClass::moderate;
}

/// Hydrologic group of a conductivity, mm/h: NEH 630 ch. 7 (limits from memory); a slow layer near
/// the surface moves it one group wetter.
char hydrologic_group(double conductivity_mm_h, DrainageClass drainage) {
  char group = 'D';
  if (conductivity_mm_h > 144.0)
    group = 'A';
  else if (conductivity_mm_h > 36.0)
    group = 'B';
  else if (conductivity_mm_h > 3.6)
    group = 'C';
  if (!lets_water_through(drainage) && group < 'D') ++group;
  return group;
}

/// Puts the owner's water contents in place of a class's, before the subsoil is made from them.
void take_own_contents(model::Horizon& soil, const SoilOwn& own) {
  if (!own.field_capacity && !own.wilting_point && !own.saturation) return;
  soil.field_capacity = own.field_capacity.value_or(soil.field_capacity);
  soil.wilting_point = own.wilting_point.value_or(soil.wilting_point);
  soil.saturation = own.saturation.value_or(soil.saturation);
  soil.retention_b =
      model::retention_b_from_contents({soil.wilting_point, soil.field_capacity, soil.saturation});
}

/// What the owner knows better, whatever form the soil was given in.
void take_own(FieldSoil& soil, const SoilOwn& own) {
  for (model::Horizon* horizon : {&soil.topsoil, &soil.subsoil}) {
    if (own.conductivity_mm_h) horizon->saturated_conductivity_mm_h = *own.conductivity_mm_h;
    if (own.retention_b) horizon->retention_b = *own.retention_b;
  }
  if (own.clay_pct) soil.clay_pct = *own.clay_pct;
  if (own.hydrologic_group) soil.hydrologic_group = own.hydrologic_group->front();
}

char hydrologic_group(const SoilRow& row, DrainageClass drainage) {
  return lets_water_through(drainage) ? row.hydrologic_group_free : row.hydrologic_group_slow;
}

FieldSoil soil_from(const SoilByClass& soil, DrainageClass drainage) {
  const SoilRow& row = *reference_tables().soil(soil.name);
  const model::Texture british{row.sand_pct, row.clay_pct, row.organic_pct};
  const model::Retention texture =
      model::retention_from_texture(model::with_american_sand_limit(british));
  FieldSoil out;
  out.topsoil = {.wilting_point = row.wilting_point,
                 .field_capacity = row.field_capacity,
                 .saturation = row.saturation,
                 .retention_b = row.retention_b,
                 .saturated_conductivity_mm_h = texture.saturated_conductivity_mm_h};
  take_own_contents(out.topsoil, soil.own);
  out.subsoil = model::subsoil_under(out.topsoil);
  out.clay_pct = row.clay_pct;
  out.rew_mm = row.rew_mm;
  out.hydrologic_group = hydrologic_group(row, drainage);
  return out;
}

FieldSoil soil_from(const SoilByTexture& soil, DrainageClass drainage) {
  const model::Texture british{soil.sand_pct, soil.clay_pct, soil.organic_pct};
  const SoilRow& row = *reference_tables().soil(model::texture_class(british));
  const model::Retention texture =
      model::retention_from_texture(model::with_american_sand_limit(british));
  FieldSoil out;
  // Field capacity lies the class's available water above the wilting point: the curve's own value
  // at 33 kPa is drier than a field drained for two days (see config/soils.toml).
  out.topsoil = {.wilting_point = texture.wilting_point,
                 .field_capacity = texture.wilting_point + row.available_water,
                 .saturation = texture.saturation,
                 .retention_b = texture.b,
                 .saturated_conductivity_mm_h = texture.saturated_conductivity_mm_h};
  out.subsoil = out.topsoil;
  out.clay_pct = soil.clay_pct;
  out.rew_mm = row.rew_mm;
  out.hydrologic_group = hydrologic_group(row, drainage);
  return out;
}

FieldSoil soil_from(const SoilByNumbers& soil, DrainageClass drainage) {
  const model::WaterContents contents{soil.wilting_point, soil.field_capacity, soil.saturation};
  FieldSoil out;
  out.topsoil = {.wilting_point = soil.wilting_point,
                 .field_capacity = soil.field_capacity,
                 .saturation = soil.saturation,
                 .retention_b = model::retention_b_from_contents(contents),
                 .saturated_conductivity_mm_h = model::conductivity_from_contents_mm_h(contents)};
  out.subsoil = out.topsoil;
  out.clay_pct = soil.clay_pct.value_or(clay_unknown_pct);
  out.rew_mm = rew_of_a_loam_mm;
  out.hydrologic_group = hydrologic_group(out.topsoil.saturated_conductivity_mm_h, drainage);
  return out;
}

}  // namespace

FieldSoil soil_of(const FieldConfig& config) {
  FieldSoil soil = std::visit(
      [&config](const auto& given) {
        FieldSoil own = soil_from(given, config.drainage);
        take_own(own, given.own);
        return own;
      },
      config.soil);
  if (config.textbook) soil.subsoil = soil.topsoil;
  return soil;
}

}  // namespace gley::daemon

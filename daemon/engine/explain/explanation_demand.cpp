#include "daemon/engine/explain/explanation_sections.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

std::string morning_source(const ExplainedDay& day) {
  if (!day.first) return "carried over from the evening before";
  return day.config.start_depletion_mm ? "configuration, start_depletion_mm"
                                       : "assumed: field capacity at the start";
}

double soil_evaporation_mm(const ExplainedDay& day) {
  return day.day.fluxes.evaporation_mm - day.day.ground.snow_evaporation_mm;
}

void say_evaporable(const ExplainedDay& day, Lines& lines) {
  const model::FieldParameters& field = day.field.parameters;
  const model::Horizon& top = field.soil.horizon[0];
  lines.push_back({.key = "rew_mm",
                   .name = "readily evaporable REW",
                   .value = field.rew_mm,
                   .source = day.config.rew_mm
                                 ? "configuration, rew_mm"
                                 : "FAO-56 Table 19, middle of the soil's range; at most TEW"});
  ExplanationLine tew{.key = "tew_mm", .name = "evaporable in all TEW", .value = field.tew_mm};
  if (day.config.tew_mm) {
    tew.source = "configuration, tew_mm";
  } else {
    tew.equation = worked("1000 (FC - 0.5 WP) Ze = 1000 * ({} - 0.5 * {}) * 0.1",
                          {top.field_capacity, top.wilting_point});
    tew.source = "FAO-56 Eq. 73, Ze 0.1 m; FC and WP: " + soil_source(day.config);
  }
  lines.push_back(std::move(tew));
}

void say_surface_start(const ExplainedDay& day, Lines& lines) {
  const model::DayFluxes<double>& out = day.day.fluxes;
  const double before_mm = day.morning.water.surface_depletion_mm;
  lines.push_back({.key = "surface_depletion_before_mm",
                   .name = "De the evening before",
                   .value = before_mm,
                   .source = morning_source(day)});
  const double fw = day.day.evening.water.wetted_fraction;
  lines.push_back(
      {.key = "surface_depletion_start_mm",
       .name = "De after early water",
       .value = out.surface_depletion_start_mm,
       .equation = worked(
           "max(0, De before - (rain and melt - storm runoff) - I/fw) = max(0, {} - "
           "({} - {}) - {}/{})",
           {before_mm, day.day.forcing.water_mm, storm_runoff_mm(day), day.day.irrigation_mm, fw}),
       .source = "FAO-56 Eq. 77 and Example 35, note 9: water early in the day decides Kr"});
}

void say_ke(const ExplainedDay& day, Lines& lines) {
  const model::DayFluxes<double>& out = day.day.fluxes;
  const model::StandDay& stand = day.day.stand;
  const model::FieldParameters& field = day.field.parameters;
  const double fw = day.day.evening.water.wetted_fraction;
  lines.push_back({.key = "few",
                   .name = "exposed and wetted few",
                   .value = out.few,
                   .equation = worked("min(1 - fc, fw) = min(1 - {}, {})", {stand.cover, fw}),
                   .source = "FAO-56 Eq. 75; fw of the last wetting, p. 149"});
  const bool dry = out.surface_depletion_start_mm > field.rew_mm;
  lines.push_back({.key = "kr",
                   .name = "evaporation reduction Kr",
                   .value = out.kr,
                   .equation = dry ? worked("(TEW - De)/(TEW - REW) = ({} - {})/({} - {})",
                                            {field.tew_mm, out.surface_depletion_start_mm,
                                             field.tew_mm, field.rew_mm})
                                   : worked("1 while De is at most REW: {} <= {}",
                                            {out.surface_depletion_start_mm, field.rew_mm}),
                   .source = "FAO-56 Eq. 74"});
  lines.push_back(
      {.key = "ke",
       .name = "soil evaporation Ke",
       .value = out.ke,
       .equation = worked("min(Kr (Kcmax - Kcb), few Kcmax) = min({} * ({} - {}), {} * {})",
                          {out.kr, stand.kc_max, stand.kcb, out.few, stand.kc_max}),
       .source = "FAO-56 Eq. 71"});
}

std::string less_than_wanted(double got_mm, double wanted_mm) {
  if (got_mm >= wanted_mm) return {};
  return worked("the soil in reach had less than the {} mm asked for", {wanted_mm});
}

void say_evaporation(const ExplainedDay& day, Lines& lines) {
  const model::DayFluxes<double>& out = day.day.fluxes;
  const double et0_mm = day.day.forcing.et0_mm;
  std::string note = less_than_wanted(soil_evaporation_mm(day), out.ke * et0_mm);
  if (day.day.ground.covered) note = "snow covers the ground: ET0 of soil and crop is 0";
  lines.push_back({.key = "evaporation_mm",
                   .name = "evaporation E",
                   .value = out.evaporation_mm,
                   .equation = worked("Ke ET0 + evaporation of snow = {} * {} + {}",
                                      {out.ke, et0_mm, day.day.ground.snow_evaporation_mm}),
                   .source = "FAO-56 Eq. 69",
                   .note = note});
  ExplanationLine evening{.key = "surface_depletion_mm",
                          .name = "De in the evening",
                          .value = day.day.evening.water.surface_depletion_mm,
                          .source = "FAO-56 Eq. 77 to 79"};
  if (out.few > 0.0)
    evening.equation = worked("min(TEW, De after early water + E/few) = min({}, {} + {}/{})",
                              {day.field.parameters.tew_mm, out.surface_depletion_start_mm,
                               soil_evaporation_mm(day), out.few});
  else
    evening.note = "nothing is exposed: as after early water";
  lines.push_back(std::move(evening));
}

void say_stress(const ExplainedDay& day, Lines& lines) {
  const model::DayFluxes<double>& out = day.day.fluxes;
  const model::StandDay& stand = day.day.stand;
  const double taw_mm = stand.total_available_mm;
  const double before_mm = model::depletion_mm(stand, day.morning.water);
  lines.push_back(
      {.key = "depletion_fraction",
       .name = "depletion fraction p",
       .value = out.depletion_fraction,
       .equation = worked("p tabled + 0.04 (5 - (Kcb + Ke) ET0), 0.1 to 0.8 = {} + 0.04 (5 - ({} + "
                          "{}) * {})",
                          {stand.depletion_fraction, stand.kcb, out.ke, day.day.forcing.et0_mm}),
       .source = "FAO-56 p. 162; p tabled: " +
                 crop_number_source(day, &CropRow::depletion_fraction, stand.depletion_fraction)});
  lines.push_back({.key = "raw_mm",
                   .name = "readily available water RAW",
                   .value = out.depletion_fraction * taw_mm,
                   .equation = worked("p TAW = {} * {}", {out.depletion_fraction, taw_mm}),
                   .source = "FAO-56 Eq. 83"});
  lines.push_back({.key = "depletion_before_mm",
                   .name = "Dr the evening before",
                   .value = before_mm,
                   .source = morning_source(day) + "; over the roots of this day"});
  lines.push_back({.key = "depletion_start_mm",
                   .name = "Dr after early water",
                   .value = out.depletion_start_mm,
                   .equation = worked("Dr before - water that came to the roots = {} - {}",
                                      {before_mm, before_mm - out.depletion_start_mm}),
                   .source = "FAO-56 Example 38, note 5; the water's way: see the layers"});
  lines.push_back(
      {.key = "ks",
       .name = "water stress Ks",
       .value = out.ks,
       .equation = worked("min(1, (TAW - Dr)/((1 - p) TAW)) = min(1, ({} - {})/((1 - {}) "
                          "* {}))",
                          {taw_mm, out.depletion_start_mm, out.depletion_fraction, taw_mm}),
       .source = "FAO-56 Eq. 84"});
}

std::string rooted_deficits(const ExplainedDay& day) {
  std::string sum;
  for (int l = 0; l < model::max_layers; ++l) {
    const double rooted_mm = day.day.stand.rooted_available_mm[l];
    if (rooted_mm <= 0.0) continue;
    const double deficit_mm = model::greatest(0.0, -day.day.evening.water.excess_mm[l]);
    sum += (sum.empty() ? "" : " + ") + worked("{}", {model::least(deficit_mm, rooted_mm)});
  }
  return sum;
}

}  // namespace

ExplanationSection surface_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Evaporation from the soil's surface", .lines = {}};
  say_evaporable(day, out.lines);
  say_surface_start(day, out.lines);
  say_ke(day, out.lines);
  say_evaporation(day, out.lines);
  return out;
}

ExplanationSection root_zone_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Root zone", .lines = {}};
  say_stress(day, out.lines);
  const model::DayFluxes<double>& fluxes = day.day.fluxes;
  const double et0_mm = day.day.forcing.et0_mm;
  out.lines.push_back(
      {.key = "transpiration_mm",
       .name = "transpiration T",
       .value = fluxes.transpiration_mm,
       .equation = worked("Ks Kcb ET0 = {} * {} * {}", {fluxes.ks, day.day.stand.kcb, et0_mm}),
       .source = "FAO-56 Eq. 80",
       .note =
           less_than_wanted(fluxes.transpiration_mm, fluxes.ks * (day.day.stand.kcb * et0_mm))});
  out.lines.push_back(
      {.key = "depletion_mm",
       .name = "depletion Dr in the evening",
       .value = day.day.depletion_mm,
       .equation = "below field capacity in each rooted layer = " + rooted_deficits(day),
       .source = "FAO-56 Eq. 85 and 88, layer by layer: see the layers"});
  return out;
}

}  // namespace gley::daemon

#include <cmath>

#include "daemon/engine/explain/explanation_sections.hpp"
#include "model/numeric/elementary.hpp"
#include "model/water/field_step.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;
using Water = model::FieldWater<double>;

/// The first part of the field step, run again to see the water on its way.
struct WaysOfWater {
  double storage_mm = 0.0;  ///< of the curve number
  double storm_mm = 0.0;
  double offered_mm = 0.0;
  double bypass_mm = 0.0;
  Water after_cracks;
  Water handed_down;
  double reached_base_mm = 0.0;
};

WaysOfWater ways_of(const ExplainedDay& day) {
  const model::ClassDay today = model::class_day(day.field.parameters, day.day.stand);
  const model::DayForcing<double>& forcing = day.day.forcing;
  Water water = day.morning.water;
  WaysOfWater ways;
  const double open_mm = model::least(
      today.storage_dry_mm, today.storage_wet_mm + 0.95 * model::step::profile_deficit_mm(water));
  ways.storage_mm = forcing.sealed > 0.5 ? model::sealed_storage_mm : open_mm;
  ways.storm_mm = storm_runoff_mm(day);
  ways.offered_mm = forcing.water_mm - ways.storm_mm + forcing.irrigation_mm + water.pond_mm;
  ways.bypass_mm = model::step::fill_through_cracks(today, ways.offered_mm, water);
  ways.after_cracks = water;
  ways.reached_base_mm = model::step::hand_down(today, ways.offered_mm - ways.bypass_mm, water);
  ways.handed_down = water;
  return ways;
}

std::string depth_words(const model::SoilProfile& soil, int layer) {
  double top_mm = 0.0;
  for (int l = 0; l < layer; ++l) top_mm += soil.thickness_mm[l];
  return "layer " + std::to_string(layer + 1) + ", " +
         worked("{} to {} mm", {top_mm, top_mm + soil.thickness_mm[layer]});
}

/// Under what a balance must close to (see the day's balance) an amount is what rounding leaves.
double told_mm(double value_mm) {
  constexpr double rounding_mm = 1e-9;
  return std::fabs(value_mm) < rounding_mm ? 0.0 : value_mm;
}

std::string layer_way(const ExplainedDay& day, const WaysOfWater& ways, int layer,
                      double passed_mm) {
  const double before = told_mm(day.morning.water.excess_mm[layer]);
  const double cracks = told_mm(ways.after_cracks.excess_mm[layer]);
  const double after = told_mm(ways.handed_down.excess_mm[layer]);
  const double evening = told_mm(day.day.evening.water.excess_mm[layer]);
  std::string text = worked("water over (under: negative) field capacity: before {} mm", {before});
  if (cracks != before) text += worked(", filled through cracks to {}", {cracks});
  text += worked("; after the day's water {}, {} passed on below", {after, told_mm(passed_mm)});
  const double taken = told_mm(after - evening);
  if (taken < 0.0) return text + worked("; {} backed up from below; evening {}", {-taken, evening});
  return text + worked("; {} to evaporation, roots and pipes; evening {}", {taken, evening});
}

void say_layers(const ExplainedDay& day, const WaysOfWater& ways, Lines& lines) {
  const model::SoilProfile& soil = day.field.parameters.soil;
  double passing_mm = ways.offered_mm - ways.bypass_mm;
  for (int l = 0; l < soil.layers; ++l) {
    passing_mm += ways.after_cracks.excess_mm[l] - ways.handed_down.excess_mm[l];
    const model::Horizon& h = soil.horizon[l];
    lines.push_back({.key = "theta_" + std::to_string(l + 1),
                     .name = depth_words(soil, l),
                     .value = model::theta_of(soil, day.day.evening.water, l),
                     .unit = "m3/m3",
                     .equation = worked("FC + excess/thickness = {} + {}/{}",
                                        {h.field_capacity, day.day.evening.water.excess_mm[l],
                                         soil.thickness_mm[l]}),
                     .note = layer_way(day, ways, l, passing_mm) +
                             worked(". WP {}, saturation {}", {h.wilting_point, h.saturation})});
  }
}

ExplanationLine drainage_line(const ExplainedDay& day, const WaysOfWater& ways) {
  return {
      .key = "drainage_mm",
      .name = "percolation below the soil",
      .value = day.day.fluxes.drainage_mm,
      .equation = worked("what reaches the base - what evaporation and roots take of it on its "
                         "way = {} - {}",
                         {ways.reached_base_mm, ways.reached_base_mm - day.day.fluxes.drainage_mm}),
      .source = "FAO-56 Eq. 88; drainage class '" + std::string(to_word(day.config.drainage)) +
                "' from the configuration",
      .note =
          "each layer passes on 1 - exp(-24 Ks/room) of its surplus, at most Ks 24 h, and "
          "the slow layer its class's rate and what dry ground under it draws in (ours): Neitsch "
          "et al. (2011), TWRI TR-406 ch. 2:3"};
}

/// Pipes are said to take what stands over field capacity anywhere above the slow layer; held up
/// over soil that is still short, it comes to real ones by cracks and gravel or not at all.
std::string pipes_note(const ExplainedDay& day, const WaysOfWater& ways) {
  if (day.day.fluxes.pipe_drain_mm <= 0.0) return {};
  const int piped = day.field.parameters.piped_layers;
  int deepest = piped - 1;
  while (deepest >= 0 && ways.handed_down.excess_mm[deepest] <= 0.0) --deepest;
  const double short_mm = told_mm(model::deficit_between_mm(deepest + 1, piped, ways.handed_down));
  if (short_mm <= 0.0) return {};
  return worked(
      "held up over layers that are still short of {} mm to field capacity: real pipes may start "
      "later",
      {short_mm});
}

ExplanationLine pipes_line(const ExplainedDay& day, const WaysOfWater& ways) {
  const double rate_mm = day.field.parameters.pipe_rate_mm;
  return {
      .key = "pipe_drain_mm",
      .name = "taken by pipe drains",
      .value = day.day.fluxes.pipe_drain_mm,
      .equation = rate_mm > 0.0
                      ? worked("min(rate, surplus above the slow layer), rate {} mm/day", {rate_mm})
                      : "",
      .source = rate_mm > 0.0 ? day.config.pipe_rate_mm_d ? "configuration, pipe_rate_mm_d"
                                                          : "our choice of rate"
                              : "no working pipe drains in the configuration",
      .note = pipes_note(day, ways)};
}

void say_whole_profile(const ExplainedDay& day, Lines& lines) {
  const Water& water = day.day.evening.water;
  lines.push_back(
      {.key = "topsoil_deficit_mm",
       .name = "topsoil deficit",
       .value = day.day.topsoil_deficit_mm,
       .equation = worked("below field capacity in layers 1 and 2 = max(0, -{}) + max(0, -{})",
                          {water.excess_mm[0], water.excess_mm[1]}),
       .source = "the layers above"});
  lines.push_back({.key = "surplus_mm",
                   .name = "surplus still to drain",
                   .value = day.day.surplus_mm,
                   .equation = "sum of the rooted share of each layer's water over field capacity",
                   .source = "the layers above"});
  lines.push_back({.key = "pond_mm",
                   .name = "standing on the ground",
                   .value = water.pond_mm,
                   .equation = "what no layer has room for, up to 5 mm, 2 mm on slopes over 5 %",
                   .source = "our choice"});
}

}  // namespace

double storm_runoff_mm(const ExplainedDay& day) {
  return model::step::storm_runoff(model::class_day(day.field.parameters, day.day.stand),
                                   day.day.forcing, day.morning.water);
}

ExplanationSection runoff_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Water that runs off", .lines = {}};
  const WaysOfWater ways = ways_of(day);
  const double water_mm = day.day.forcing.water_mm;
  if (day.day.stand.sheds_storms) {
    out.lines.push_back(
        {.key = "storage_mm",
         .name = "curve-number storage S",
         .value = ways.storage_mm,
         .equation = worked("min(dry, wet + 0.95 deficit of the soil) = min({}, {} + 0.95 * {})",
                            {day.day.stand.storage_dry_mm, day.day.stand.storage_wet_mm,
                             model::step::profile_deficit_mm(day.morning.water)}),
         .source =
             "NEH 630 ch. 10 with Hawkins et al. (2002), S05 = 0.8187 S^1.15; curve number by "
             "cover, soil group and slope; the rise with dryness is our choice",
         .note =
             day.day.forcing.sealed > 0.5 ? "frost has sealed the ground: curve number 98" : ""});
    out.lines.push_back(
        {.key = "storm_runoff_mm",
         .name = "storm runoff",
         .value = ways.storm_mm,
         .equation = worked("(P - 0.05 S)^2/(P + 0.95 S) where P is over 0.05 S: P {}, S {}",
                            {water_mm, ways.storage_mm}),
         .source = "NEH 630 ch. 10 with initial abstraction 0.05 S"});
  }
  out.lines.push_back(
      {.key = "runoff_mm",
       .name = "runoff in all",
       .value = day.day.fluxes.runoff_mm,
       .equation = worked("storm runoff + what finds no room = {} + {}",
                          {ways.storm_mm, day.day.fluxes.runoff_mm - ways.storm_mm}),
       .source = "water balance of the layers",
       .note = day.config.textbook ? "a textbook field sheds no storm" : ""});
  return out;
}

ExplanationSection layers_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Water through the layers", .lines = {}};
  const WaysOfWater ways = ways_of(day);
  out.lines.push_back(
      {.key = "offered_mm",
       .name = "water that enters",
       .value = ways.offered_mm,
       .equation =
           worked("rain and melt - storm runoff + irrigation + pond before = {} - {} + {} + "
                  "{}",
                  {day.day.forcing.water_mm, ways.storm_mm, day.day.irrigation_mm,
                   day.morning.water.pond_mm}),
       .source = "water balance"});
  if (day.field.parameters.crack_share > 0.0)
    out.lines.push_back({.key = "bypass_mm",
                         .name = "past the topsoil by cracks",
                         .value = day.day.fluxes.bypass_mm,
                         .equation = worked("up to {} of the water, by the topsoil's dryness, into "
                                            "deficits below",
                                            {day.field.parameters.crack_share}),
                         .source = "our choice: none under 15 % clay, a third at 60 %"});
  say_layers(day, ways, out.lines);
  out.lines.push_back(drainage_line(day, ways));
  out.lines.push_back(pipes_line(day, ways));
  say_whole_profile(day, out.lines);
  return out;
}

ExplanationSection balance_section(const ExplainedDay& day) {
  const model::DayFluxes<double>& f = day.day.fluxes;
  const double in_mm = day.day.rain_mm + day.day.irrigation_mm;
  const double out_mm =
      f.evaporation_mm + f.transpiration_mm + f.runoff_mm + f.drainage_mm + f.pipe_drain_mm;
  const double before_mm = model::stored_mm(day.field.parameters, day.morning);
  const double after_mm = model::stored_mm(day.field.parameters, day.day.evening);
  ExplanationSection out{.title = "The day's balance", .lines = {}};
  out.lines.push_back({.key = "balance_in_mm",
                       .name = "in",
                       .value = in_mm,
                       .equation = worked("rain + irrigation = {} + {}",
                                          {day.day.rain_mm, day.day.irrigation_mm})});
  out.lines.push_back(
      {.key = "balance_out_mm",
       .name = "out",
       .value = out_mm,
       .equation = worked(
           "evaporation + transpiration + runoff + percolation + pipes = {} + {} + {} "
           "+ {} + {}",
           {f.evaporation_mm, f.transpiration_mm, f.runoff_mm, f.drainage_mm, f.pipe_drain_mm})});
  out.lines.push_back({.key = "balance_held_mm",
                       .name = "more held in the evening",
                       .value = after_mm - before_mm,
                       .equation = worked("soil above wilting point, pond and snow = {} - {}",
                                          {after_mm, before_mm})});
  out.lines.push_back({.key = "balance_left_mm",
                       .name = "not accounted for",
                       .value = in_mm - out_mm - (after_mm - before_mm),
                       .equation = "in - out - more held",
                       .note = "what rounding leaves: under 1e-9 mm"});
  return out;
}

}  // namespace gley::daemon

#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/engine/judge/judgement.hpp"
#include "model/ground/ground_margin.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

constexpr const model::GroundLimits& limits = judging_rules.ground;

double theta_of(const ExplainedDay& day, const model::LayerRange& layers) {
  return model::theta_of(day.field.parameters.soil, day.day.evening.water, layers);
}

std::string suction_equation(const ExplainedDay& day, const model::LayerRange& layers) {
  const model::Horizon& h = day.field.parameters.soil.horizon[layers.first];
  const double theta = theta_of(day, layers);
  if (theta >= h.field_capacity)
    return worked("10 (1 - (theta - FC)/(SAT - FC)), at least 0 = 10 (1 - ({} - {})/({} - {}))",
                  {theta, h.field_capacity, h.saturation, h.field_capacity});
  return worked("10 (FC/theta)^b = 10 ({}/{})^{}", {h.field_capacity, theta, h.retention_b});
}

ExplanationLine suction_line(const ExplainedDay& day, const model::LayerRange& layers,
                             const char* key, const char* name, double suction_kpa) {
  return {.key = key,
          .name = name,
          .value = suction_kpa,
          .equation = suction_equation(day, layers),
          .source =
              "retention form and b after Saxton and Rawls (2006), anchored at 10 kPa at "
              "field capacity (our choice); FC, SAT, b: " +
              soil_source(day.config),
          .note = "layers " + std::to_string(layers.first + 1) + " and " +
                  std::to_string(layers.last + 1) + " as one"};
}

model::GroundState<double> ground_of(const ExplainedDay& day) {
  return model::ground_state(day.field, day.day, day.before);
}

/// One threshold of the soil gate and which side of it the day is on.
struct Threshold {
  const char* key;
  const char* name;
  double found;
  std::string needed;
  bool closed;
  const char* source;
};

ExplanationLine gate_line(const Threshold& of) {
  return {.key = of.key,
          .name = of.name,
          .value = of.found,
          .equation = of.needed + (of.closed ? ": closed" : ": open"),
          .source = of.source};
}

void say_water_gates(const ExplainedDay& day, const model::GroundState<double>& ground,
                     Lines& lines) {
  lines.push_back(
      gate_line({"gate_topsoil_deficit_mm", "topsoil deficit", ground.topsoil_deficit_mm,
                 worked("at least {} mm", {limits.topsoil_deficit_mm}),
                 ground.topsoil_deficit_mm < limits.topsoil_deficit_mm,
                 "Laurenson and Houlbrooke (2016), N.Z. J. Agric. Res. 59:444"}));
  lines.push_back(
      gate_line({"gate_suction_subsoil_kpa", "subsoil suction", ground.suction_subsoil_kpa,
                 worked("at least {} kPa", {limits.subsoil_suction_kpa}),
                 ground.suction_subsoil_kpa < limits.subsoil_suction_kpa, swiss_rule}));
  ExplanationLine rain = gate_line({"gate_rain_24h_mm", "rain in 24 hours", ground.rain_24h_mm,
                                    worked("at most {} mm", {limits.rain_24h_mm}),
                                    ground.rain_24h_mm > limits.rain_24h_mm, swiss_rule});
  rain.note = day.before.rain_24h_mm ? "of the last 24 hours" : "the day's rain";
  lines.push_back(std::move(rain));
  lines.push_back(gate_line({"gate_snow_mm", "snow lying", ground.snow_mm,
                             worked("under {} mm of water in it", {limits.snow_mm}),
                             ground.snow_mm >= limits.snow_mm, "our choice"}));
}

void say_clay_gates(const model::GroundState<double>& ground, Lines& lines) {
  const double wetter = model::least(ground.suction_topsoil_kpa, ground.suction_subsoil_kpa);
  const bool heavy = ground.clay_pct > limits.heavy_clay_pct;
  if (heavy)
    lines.push_back(gate_line({"gate_heavy_clay_kpa", "wetter suction, heavy clay", wetter,
                               worked("at least {} kPa over {} % clay",
                                      {limits.heavy_clay_closed_kpa, limits.heavy_clay_pct}),
                               wetter < limits.heavy_clay_closed_kpa, swiss_rule}));
  const double needed = model::gate::light_only_below_kpa(ground, limits);
  ExplanationLine other_wheels =
      gate_line({"gate_heavy_wheels_kpa", "wetter suction, other wheels", wetter,
                 worked("at least {} kPa for wheels over {} t or {} bar",
                        {needed, limits.light_wheel_load_t, limits.light_pressure_bar}),
                 wetter < needed, swiss_rule});
  if (ground.clay_pct < limits.clods_from_clay_pct)
    other_wheels.note =
        "the rule knows suction alone: free-draining sand may be firm sooner in spring, and the "
        "subsoil under it is still easily pressed; walk it and report what you find";
  lines.push_back(std::move(other_wheels));
}

void say_states(const model::GroundState<double>& ground, Lines& lines) {
  const auto state = [](const char* key, const char* name, double holds, const char* means) {
    return ExplanationLine{
        .key = key, .name = name, .value = std::string(holds > 0.5 ? "yes" : "no"), .note = means};
  };
  lines.push_back(state("gate_waterlogged", "waterlogged or ponded", ground.waterlogged,
                        "closed to all wheels while it lasts"));
  lines.push_back(state("gate_thaw", "thawing", ground.thaw,
                        "closed: the first day without frost after one with it"));
  lines.push_back(state("gate_deep_frost", "frozen deep", ground.deep_frost,
                        "carries while frost seals the ground and the day is frozen"));
}

}  // namespace

ExplanationSection ground_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "The ground", .lines = {}};
  const model::GroundState<double> ground = ground_of(day);
  out.lines.push_back(suction_line(day, model::topsoil_range, "suction_topsoil_kpa",
                                   "topsoil suction", day.day.suction_topsoil_kpa));
  const model::SoilProfile& soil = day.field.parameters.soil;
  const model::LayerRange subsoil = model::subsoil_of(soil);
  out.lines.push_back(suction_line(day, subsoil, "suction_subsoil_kpa", "subsoil suction",
                                   day.day.suction_subsoil_kpa));
  out.lines.push_back(
      {.key = "subsoil_saturation",
       .name = "subsoil's saturation S",
       .value = ground.subsoil_saturation,
       .equation = worked("theta/SAT = {}/{}",
                          {theta_of(day, subsoil), soil.horizon[subsoil.first].saturation})});
  out.lines.push_back(
      {.key = "bears_kpa",
       .name = "strength at half a metre",
       .value = model::bearing_limit_kpa(ground, limits),
       .equation =
           worked("{} + max(0, suction S - 10 S at field capacity), at most {} = {} + max(0, "
                  "{} * {} - 10 * {})",
                  {limits.bears_moist_kpa, limits.bears_at_most_kpa, limits.bears_moist_kpa,
                   ground.suction_subsoil_kpa, ground.subsoil_saturation,
                   ground.subsoil_saturation_at_capacity}),
       .source = "50 kPa: Schjoenning et al. (2012), Soil Use Manage. 28:378-393, from memory; its "
                 "rise with suction stress is our choice"});
  return out;
}

ExplanationSection gate_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "The gate: does the soil let wheels on?", .lines = {}};
  const model::GroundState<double> ground = ground_of(day);
  say_water_gates(day, ground, out.lines);
  say_clay_gates(ground, out.lines);
  say_states(ground, out.lines);
  return out;
}

}  // namespace gley::daemon

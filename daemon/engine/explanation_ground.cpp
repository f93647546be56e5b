#include "daemon/engine/explanation_sections.hpp"
#include "daemon/engine/judgement.hpp"
#include "daemon/engine/spreading_words.hpp"
#include "daemon/engine/verdict_words.hpp"
#include "model/ground/ground_margin.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;
using model::GroundLimits;

/// The thresholds that judgement uses: their defaults.
const GroundLimits limits;

constexpr const char* swiss_rule =
    "Swiss suction rule: federal guidance for soil protection on building sites, SN 640 581";

/// Layers taken as one body of soil.
struct Body {
  int first = 0;
  int last = 0;
  double theta = 0.0;
  model::Horizon soil;
};

Body body_of(const ExplainedDay& day, int first, int last) {
  const model::SoilProfile& soil = day.field.parameters.soil;
  double excess_mm = 0.0;
  double thickness_mm = 0.0;
  for (int l = first; l <= last; ++l) {
    excess_mm += day.day.evening.water.excess_mm[l];
    thickness_mm += soil.thickness_mm[l];
  }
  const model::Horizon& horizon = soil.horizon[first];
  return {first, last, horizon.field_capacity + excess_mm / thickness_mm, horizon};
}

Body subsoil_of(const ExplainedDay& day) {
  const bool has_subsoil = day.field.parameters.soil.layers > model::topsoil_layers;
  return has_subsoil ? body_of(day, model::topsoil_layers, model::topsoil_layers + 1)
                     : body_of(day, 0, model::topsoil_layers - 1);
}

std::string suction_equation(const Body& body) {
  const model::Horizon& h = body.soil;
  if (body.theta >= h.field_capacity)
    return worked("10 (1 - (theta - FC)/(SAT - FC)), at least 0 = 10 (1 - ({} - {})/({} - {}))",
                  {body.theta, h.field_capacity, h.saturation, h.field_capacity});
  return worked("10 (FC/theta)^b = 10 ({}/{})^{}", {h.field_capacity, body.theta, h.retention_b});
}

ExplanationLine suction_line(const ExplainedDay& day, const Body& body, const char* key,
                             const char* name, double suction_kpa) {
  return {.key = key,
          .name = name,
          .value = suction_kpa,
          .unit = "kPa",
          .equation = suction_equation(body),
          .source =
              "retention form and b after Saxton and Rawls (2006), anchored at 10 kPa at "
              "field capacity (our choice); FC, SAT, b: " +
              soil_source(day.config),
          .note = "layers " + std::to_string(body.first + 1) + " and " +
                  std::to_string(body.last + 1) + " as one"};
}

model::GroundState<double> ground_of(const ExplainedDay& day) {
  return model::ground_state(day.field, day.day, day.before);
}

/// One threshold of the soil gate and which side of it the day is on.
struct Threshold {
  const char* key;
  const char* name;
  double found;
  const char* unit;
  std::string needed;
  bool closed;
  const char* source;
};

ExplanationLine gate_line(const Threshold& of) {
  return {.key = of.key,
          .name = of.name,
          .value = of.found,
          .unit = of.unit,
          .equation = of.needed + (of.closed ? ": closed" : ": open"),
          .source = of.source};
}

void say_water_gates(const ExplainedDay& day, const model::GroundState<double>& ground,
                     Lines& lines) {
  lines.push_back(
      gate_line({"gate_topsoil_deficit_mm", "topsoil deficit", ground.topsoil_deficit_mm, "mm",
                 worked("at least {} mm", {limits.topsoil_deficit_mm}),
                 ground.topsoil_deficit_mm < limits.topsoil_deficit_mm,
                 "Laurenson and Houlbrooke (2016), N.Z. J. Agric. Res. 59:444"}));
  lines.push_back(
      gate_line({"gate_suction_subsoil_kpa", "subsoil suction", ground.suction_subsoil_kpa, "kPa",
                 worked("at least {} kPa", {limits.subsoil_suction_kpa}),
                 ground.suction_subsoil_kpa < limits.subsoil_suction_kpa, swiss_rule}));
  ExplanationLine rain = gate_line({"gate_rain_24h_mm", "rain in 24 hours", ground.rain_24h_mm,
                                    "mm", worked("at most {} mm", {limits.rain_24h_mm}),
                                    ground.rain_24h_mm > limits.rain_24h_mm, swiss_rule});
  rain.note = day.before.rain_24h_mm ? "of the last 24 hours" : "the day's rain";
  lines.push_back(std::move(rain));
  lines.push_back(gate_line({"gate_snow_mm", "snow lying", ground.snow_mm, "mm",
                             worked("under {} mm of water in it", {limits.snow_mm}),
                             ground.snow_mm >= limits.snow_mm, "our choice"}));
}

void say_clay_gates(const model::GroundState<double>& ground, Lines& lines) {
  const double wetter = model::least(ground.suction_topsoil_kpa, ground.suction_subsoil_kpa);
  const bool heavy = ground.clay_pct > limits.heavy_clay_pct;
  if (heavy)
    lines.push_back(gate_line({"gate_heavy_clay_kpa", "wetter suction, heavy clay", wetter, "kPa",
                               worked("at least {} kPa over {} % clay",
                                      {limits.heavy_clay_closed_kpa, limits.heavy_clay_pct}),
                               wetter < limits.heavy_clay_closed_kpa, swiss_rule}));
  const double needed = model::gate::light_only_below_kpa(ground, limits);
  lines.push_back(gate_line({"gate_heavy_wheels_kpa", "wetter suction, other wheels", wetter, "kPa",
                             worked("at least {} kPa for wheels over {} t or {} bar",
                                    {needed, limits.light_wheel_load_t, limits.light_pressure_bar}),
                             wetter < needed, swiss_rule}));
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

struct MachineOnGround {
  const MachineConfig& machine;
  model::MachineStress stress;
  model::GroundStrength<double> strength;
  double suction_kpa;
};

int concentration_of(double suction_kpa) {
  if (suction_kpa < limits.wet_below_kpa) return 6;
  return suction_kpa < limits.moist_below_kpa ? 5 : 4;
}

const model::StressAtDepths& stress_of(const MachineOnGround& on) {
  const int v = concentration_of(on.suction_kpa);
  if (v == 6) return on.stress.wet;
  return v == 5 ? on.stress.moist : on.stress.firm;
}

void say_wheel(const MachineOnGround& on, Lines& lines) {
  const std::string own = "configuration, machine " + on.machine.id;
  const model::WheelContact contact = model::contact_of(
      {.load_t = on.machine.wheel_load_t, .pressure_bar = on.machine.tyre_pressure_bar});
  lines.push_back({.key = "wheel_load_t",
                   .name = "heaviest wheel F",
                   .value = on.machine.wheel_load_t,
                   .unit = "t",
                   .source = own});
  lines.push_back({.key = "tyre_pressure_bar",
                   .name = "tyre pressure p",
                   .value = on.machine.tyre_pressure_bar,
                   .unit = "bar",
                   .source = own});
  lines.push_back({.key = "contact_radius_m",
                   .name = "radius of its contact a",
                   .value = contact.radius_m,
                   .unit = "m",
                   .equation = worked("sqrt(9.81 F/(100 p)/pi) = sqrt(9.81 * {}/(100 * {})/pi)",
                                      {on.machine.wheel_load_t, on.machine.tyre_pressure_bar}),
                   .source = "a circle of even pressure: Arvidsson and Keller (2007), Soil Till. "
                             "Res. 96:284-291"});
  lines.push_back(
      {.key = "concentration",
       .name = "concentration factor v",
       .value = static_cast<double>(concentration_of(on.suction_kpa)),
       .equation = worked("6 under {} kPa of subsoil suction, 5 under {}, else 4: {} kPa",
                          {limits.wet_below_kpa, limits.moist_below_kpa, on.suction_kpa}),
       .source = "Soehne (1953), from memory; suctions our choice"});
}

void say_stress_at(const MachineOnGround& on, double depth_m, double stress_kpa, double bears_kpa,
                   Lines& lines) {
  const model::WheelContact contact = model::contact_of(
      {.load_t = on.machine.wheel_load_t, .pressure_bar = on.machine.tyre_pressure_bar});
  const std::string depth = worked("{}", {depth_m});
  lines.push_back(
      {.key = "stress_" + depth + "m_kpa",
       .name = "stress at " + depth + " m",
       .value = stress_kpa,
       .unit = "kPa",
       .equation = worked("p (1 - (z/sqrt(z^2 + a^2))^v) = {} (1 - ({}/sqrt({}^2 + {}^2))^{})",
                          {contact.pressure_kpa, depth_m, depth_m, contact.radius_m,
                           static_cast<double>(concentration_of(on.suction_kpa))}),
       .source = "Froehlich's factor in the form of Soehne (1953)"});
  lines.push_back({.key = "ratio_" + depth + "m",
                   .name = "against what the soil stands",
                   .value = stress_kpa / bears_kpa,
                   .equation = worked("stress/strength = {}/{}", {stress_kpa, bears_kpa}),
                   .source = depth_m == limits.deep_m
                                 ? "strength: see the ground"
                                 : worked("strength {} times that at depth: our choice",
                                          {limits.shallow_bears_times})});
}

void say_mass(const MachineOnGround& on, Lines& lines) {
  if (!on.stress.asks_suction_kpa) {
    lines.push_back({.key = "mass_suction_kpa",
                     .name = "suction its mass asks for",
                     .value = std::string("not judged"),
                     .note = on.machine.mass_t ? "so light a wheel is let off"
                                               : "the whole mass is not configured"});
    return;
  }
  const double needed = *on.stress.asks_suction_kpa + on.strength.extra_suction_kpa;
  lines.push_back(
      {.key = "mass_suction_kpa",
       .name = "suction its mass asks for",
       .value = needed,
       .unit = "kPa",
       .equation = worked("1.25 mass p + heavy clay = 1.25 * {} t * {} kg/cm2 + {}",
                          {*on.machine.mass_t, on.machine.tyre_pressure_bar * 100.0 / 98.0665,
                           on.strength.extra_suction_kpa}),
       .source = swiss_rule,
       .note = worked("ratio {}/{}",
                      {needed, model::greatest(model::least_suction_kpa, on.suction_kpa)})});
}

void say_verdict(const ExplainedDay& day, const MachineOnGround& on, Lines& lines) {
  const model::GroundVerdict verdict =
      judge(on.machine, {day.field, day.day, day.before, day.silence});
  const double worst = model::worst_ratio(on.stress, on.strength, limits);
  std::string equation =
      worked("min(gate, 1 - worst ratio) = min({}, 1 - {})",
             {on.stress.lightest ? on.strength.lightest_gate : on.strength.gate, worst});
  if (!on.stress.light && !on.stress.lightest)
    equation += worked("; and gate of heavy wheels {}", {on.strength.heavy_wheel_gate});
  if (on.machine.cultivates)
    equation += worked("; and of a crumbling topsoil {}", {on.strength.crumbling_gate});
  if (verdict.margin)
    lines.push_back({.key = "margin",
                     .name = "margin",
                     .value = *verdict.margin,
                     .equation = std::move(equation),
                     .source = "our choice; a gate is 1 open, and from -1 to just under 0 closed"});
  std::string reasons;
  for (const std::string& reason : verdict_reasons(verdict, load_of(on.machine), limits))
    reasons += (reasons.empty() ? "" : "; ") + reason;
  lines.push_back({.key = "verdict",
                   .name = "verdict",
                   .value = std::string(model::to_word(verdict.verdict)),
                   .equation = worked("carries from {}, with care from 0, keep off below",
                                      {limits.carries_from_margin}),
                   .source = "our choice",
                   .note = reasons});
}

}  // namespace

ExplanationSection ground_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "The ground", .lines = {}};
  const model::GroundState<double> ground = ground_of(day);
  out.lines.push_back(suction_line(day, body_of(day, 0, model::topsoil_layers - 1),
                                   "suction_topsoil_kpa", "topsoil suction",
                                   day.day.suction_topsoil_kpa));
  const Body subsoil = subsoil_of(day);
  out.lines.push_back(suction_line(day, subsoil, "suction_subsoil_kpa", "subsoil suction",
                                   day.day.suction_subsoil_kpa));
  out.lines.push_back(
      {.key = "subsoil_saturation",
       .name = "subsoil's saturation S",
       .value = ground.subsoil_saturation,
       .equation = worked("theta/SAT = {}/{}", {subsoil.theta, subsoil.soil.saturation})});
  out.lines.push_back(
      {.key = "bears_kpa",
       .name = "strength at half a metre",
       .value = model::bearing_limit_kpa(ground, limits),
       .unit = "kPa",
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

ExplanationSection machine_section(const ExplainedDay& day, const MachineConfig& machine) {
  ExplanationSection out{.title = "Machine: " + machine.name + " (" + machine.id + ")",
                         .lines = {}};
  const model::GroundState<double> ground = ground_of(day);
  const MachineOnGround on{machine, model::machine_stress(load_of(machine), limits),
                           model::ground_strength(ground, limits), ground.suction_subsoil_kpa};
  say_wheel(on, out.lines);
  const double bears = on.strength.bears_kpa;
  say_stress_at(on, limits.deep_m, stress_of(on).deep_kpa, bears, out.lines);
  say_stress_at(on, limits.shallow_m, stress_of(on).shallow_kpa, bears * limits.shallow_bears_times,
                out.lines);
  say_mass(on, out.lines);
  say_verdict(day, on, out.lines);
  for (ExplanationLine& line : out.lines) line.key = machine.id + "." + line.key;
  return out;
}

ExplanationSection spreading_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Spreading", .lines = {}};
  const JudgedDay judged{day.field, day.day, day.before, day.silence};
  for (const MaterialConfig& material : day.farm.materials) {
    const model::SpreadingAdvice advice = advise(material, day.config, judged);
    std::string reasons;
    for (const std::string& reason : advice_reasons(advice))
      reasons += (reasons.empty() ? "" : "; ") + reason;
    out.lines.push_back({.key = material.id + ".advice",
                         .name = material.name,
                         .value = std::string(model::to_word(advice.advice)),
                         .note = reasons});
  }
  return out;
}

}  // namespace gley::daemon

#include "daemon/board/words/plain_words.hpp"
#include "daemon/engine/explain/explanation_sections.hpp"
#include "daemon/engine/judge/judgement.hpp"
#include "daemon/engine/judge/verdict_words.hpp"
#include "model/ground/ground_margin.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::daemon {

namespace {

using Lines = std::vector<ExplanationLine>;

constexpr const model::GroundLimits& limits = judging_rules.ground;

struct MachineOnGround {
  const MachineConfig& machine;
  model::WheelContact contact;
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
  lines.push_back({.key = "wheel_load_t",
                   .name = "heaviest wheel F",
                   .value = on.machine.wheel_load_t,
                   .source = own});
  lines.push_back({.key = "tyre_pressure_bar",
                   .name = "tyre pressure p",
                   .value = on.machine.tyre_pressure_bar,
                   .source = own});
  lines.push_back({.key = "contact_radius_m",
                   .name = "radius of its contact a",
                   .value = on.contact.radius_m,
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
  const std::string depth = worked("{}", {depth_m});
  lines.push_back(
      {.key = "stress_" + depth + "m_kpa",
       .name = "stress at " + depth + " m",
       .value = stress_kpa,
       .equation = worked("p (1 - (z/sqrt(z^2 + a^2))^v) = {} (1 - ({}/sqrt({}^2 + {}^2))^{})",
                          {on.contact.pressure_kpa, depth_m, depth_m, on.contact.radius_m,
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
       .equation = worked("1.25 mass p + heavy clay = 1.25 * {} t * {} kg/cm2 + {}",
                          {*on.machine.mass_t, on.machine.tyre_pressure_bar * 100.0 / 98.0665,
                           on.strength.extra_suction_kpa}),
       .source = swiss_rule,
       .note = worked("ratio {}/{}",
                      {needed, model::greatest(model::least_suction_kpa, on.suction_kpa)})});
}

void say_treading(const model::GroundState<double>& ground, const MachineOnGround& on,
                  Lines& lines) {
  lines.push_back({.key = "treading_ratio",
                   .name = "deficit that hooves need",
                   .value = on.strength.treading_ratio,
                   .equation = worked("needed/topsoil deficit = {}/{}",
                                      {limits.topsoil_deficit_mm, ground.topsoil_deficit_mm}),
                   .source = "3 mm: Laurenson and Houlbrooke (2016), N.Z. J. Agric. Res. 59:444; a "
                             "hoof treads 50 to 150 mm deep: Greenwood and McKenzie (2001), Aust. "
                             "J. Exp. Agric. 41:1231"});
}

double gate_of(const MachineOnGround& on) {
  if (on.stress.treads) return on.strength.treading_gate;
  return on.stress.lightest ? on.strength.lightest_gate : on.strength.gate;
}

void say_verdict(const ExplainedDay& day, const MachineOnGround& on, Lines& lines) {
  const model::GroundVerdict verdict = judge(on.machine, {.field = day.field,
                                                          .day = day.day,
                                                          .before = day.before,
                                                          .silence = day.silence,
                                                          .if_wetter = day.if_wetter});
  const double worst = model::worst_ratio(on.stress, on.strength, limits);
  std::string equation =
      worked("min(gate, 1 - worst ratio) = min({}, 1 - {})", {gate_of(on), worst});
  if (!on.stress.light && !on.stress.lightest && !on.stress.treads)
    equation += worked("; and gate of heavy wheels {}", {on.strength.heavy_wheel_gate});
  if (on.machine.cultivates)
    equation += worked("; and of a crumbling topsoil {}", {on.strength.crumbling_gate});
  if (verdict.margin)
    lines.push_back({.key = "margin",
                     .name = "margin",
                     .value = *verdict.margin,
                     .equation = std::move(equation),
                     .source = "our choice; a gate is 1 open, and from -1 to just under 0 closed"});
  lines.push_back({.key = "verdict",
                   .name = "verdict",
                   .value = std::string(model::to_word(verdict.verdict)),
                   .equation = worked("carries from {}, with care from 0, keep off below",
                                      {limits.carries_from_margin}),
                   .source = "our choice",
                   .note = joined(verdict_reasons(verdict, load_of(on.machine), limits), "; ")});
}

}  // namespace

ExplanationSection machine_section(const ExplainedDay& day, const MachineConfig& machine) {
  ExplanationSection out{.title = "Machine: " + machine.name + " (" + machine.id + ")",
                         .lines = {}};
  const model::GroundState<double> ground = model::ground_state(day.field, day.day, day.before);
  const model::MachineLoad load = load_of(machine);
  const MachineOnGround on{machine, model::contact_of(load.heaviest_wheel),
                           model::machine_stress(load, limits),
                           model::ground_strength(ground, limits), ground.suction_subsoil_kpa};
  say_wheel(on, out.lines);
  if (on.stress.treads) {
    say_treading(ground, on, out.lines);
  } else {
    const double bears = on.strength.bears_kpa;
    say_stress_at(on, limits.deep_m, stress_of(on).deep_kpa, bears, out.lines);
    say_stress_at(on, limits.shallow_m, stress_of(on).shallow_kpa,
                  bears * limits.shallow_bears_times, out.lines);
    say_mass(on, out.lines);
  }
  say_verdict(day, on, out.lines);
  for (ExplanationLine& line : out.lines) line.key = machine.id + "." + line.key;
  return out;
}

ExplanationSection spreading_section(const ExplainedDay& day) {
  ExplanationSection out{.title = "Spreading", .lines = {}};
  for (const SpreadingView& material : day.advice)
    out.lines.push_back({.key = material.id + ".advice",
                         .name = material.name,
                         .value = material.advice,
                         .note = joined(material.reasons, "; ")});
  return out;
}

}  // namespace gley::daemon

#include "model/ground/ground_verdict.hpp"

#include <cmath>

#include "model/ground/ground_margin.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

using Kind = GroundReasonKind;
using Reasons = std::vector<GroundReason>;

/// Says so where a gate is closed.
void say_if_closed(double gate_margin, const GroundReason& reason, Reasons& reasons) {
  if (gate_margin < 0.0) reasons.push_back(reason);
}

double wetter_suction_kpa(const GroundState<double>& ground) {
  return least(ground.suction_topsoil_kpa, ground.suction_subsoil_kpa);
}

void say_water_on_top(const GroundState<double>& ground, Reasons& reasons) {
  say_if_closed(gate::unless(ground.thaw), {.kind = Kind::thaw}, reasons);
  if (ground.deep_frost > 0.5 || ground.waterlogged < 0.5) return;
  if (ground.pond_mm > 0.0)
    reasons.push_back({.kind = Kind::ponded, .found = ground.pond_mm, .needed = 0.0});
  else
    reasons.push_back({.kind = Kind::waterlogged});
}

void say_wet_soil(const GroundState<double>& ground, const GroundLimits& limits, Reasons& reasons) {
  if (ground.deep_frost > 0.5) return;
  const double deficit = ground.topsoil_deficit_mm;
  say_if_closed(gate::at_least(deficit, limits.topsoil_deficit_mm),
                {Kind::topsoil_full, deficit, limits.topsoil_deficit_mm}, reasons);
  say_if_closed(gate::at_most(ground.rain_24h_mm, limits.rain_24h_mm),
                {Kind::rain, ground.rain_24h_mm, limits.rain_24h_mm}, reasons);
  const double suction = wetter_suction_kpa(ground);
  const bool heavy_clay = ground.clay_pct > limits.heavy_clay_pct;
  if (heavy_clay && suction < limits.heavy_clay_closed_kpa)
    reasons.push_back({Kind::heavy_clay_wet, suction, limits.heavy_clay_closed_kpa});
  else
    say_if_closed(gate::at_least(ground.suction_subsoil_kpa, limits.subsoil_suction_kpa),
                  {Kind::subsoil_wet, ground.suction_subsoil_kpa, limits.subsoil_suction_kpa},
                  reasons);
}

/// The band below which only light wheels pass, told where no gate is closed to all.
void say_light_only(const GroundState<double>& ground, const GroundLimits& limits,
                    Reasons& reasons) {
  if (ground.deep_frost > 0.5) return;
  const double suction = wetter_suction_kpa(ground);
  const double needed = gate::light_only_below_kpa(ground, limits);
  if (suction >= needed) return;
  const bool below = ground.suction_subsoil_kpa < ground.suction_topsoil_kpa;
  reasons.push_back({below ? Kind::light_wheels_below : Kind::light_wheels_only, suction, needed});
}

bool breaks_to_grains(const GroundState<double>& ground, const GroundLimits& limits) {
  return ground.clay_pct < limits.clods_from_clay_pct;
}

void say_crumbling(const GroundState<double>& ground, const GroundLimits& limits,
                   Reasons& reasons) {
  const double suction = ground.suction_topsoil_kpa;
  if (ground.deep_frost > 0.5)
    reasons.push_back({.kind = Kind::too_frozen_to_till});
  else if (suction < limits.crumbles_from_kpa)
    reasons.push_back({Kind::too_wet_to_crumble, suction, limits.crumbles_from_kpa});
  else if (suction > limits.crumbles_to_kpa && !breaks_to_grains(ground, limits))
    reasons.push_back({Kind::too_dry_to_crumble, suction, limits.crumbles_to_kpa});
}

/// Tines leave dry sand loose to the wind (common practice); how windy it will be is not judged.
bool may_blow(const GroundState<double>& ground, const GroundLimits& limits) {
  return breaks_to_grains(ground, limits) && ground.deep_frost < 0.5 &&
         ground.suction_topsoil_kpa > limits.crumbles_to_kpa;
}

const StressAtDepths& stress_on(const MachineStress& machine, double suction_kpa,
                                const GroundLimits& limits) {
  if (suction_kpa < limits.wet_below_kpa) return machine.wet;
  return suction_kpa < limits.moist_below_kpa ? machine.moist : machine.firm;
}

/// The machine test: the tests that fail, or else the one that comes nearest to it.
void say_machine_test(const MachineStress& machine, const GroundState<double>& ground,
                      const GroundLimits& limits, Reasons& reasons) {
  const GroundStrength<double> strength = ground_strength(ground, limits);
  const double suction = ground.suction_subsoil_kpa;
  const StressAtDepths& stress = stress_on(machine, suction, limits);
  struct Test {
    double ratio;
    GroundReason reason;
  };
  const double bears = strength.bears_kpa;
  const double bears_shallow = bears * limits.shallow_bears_times;
  std::vector<Test> tests{{stress.deep_kpa / bears, {Kind::presses_deep, stress.deep_kpa, bears}},
                          {stress.shallow_kpa / bears_shallow,
                           {Kind::presses_shallow, stress.shallow_kpa, bears_shallow}}};
  if (machine.asks_suction_kpa) {
    const double needed = *machine.asks_suction_kpa + strength.extra_suction_kpa;
    tests.push_back(
        {needed / greatest(least_suction_kpa, suction), {Kind::mass_needs_drier, suction, needed}});
  }
  const Test* worst = &tests.front();
  for (const Test& test : tests)
    if (test.ratio > worst->ratio) worst = &test;
  reasons.push_back(worst->reason);
  for (const Test& test : tests)
    if (&test != worst && test.ratio > 1.0) reasons.push_back(test.reason);
}

bool is_known(const MachineLoad& machine) {
  const WheelLoad& wheel = machine.heaviest_wheel;
  return std::isfinite(wheel.load_t) && wheel.load_t > 0.0 && std::isfinite(wheel.pressure_bar) &&
         wheel.pressure_bar > 0.0 && std::isfinite(machine.mass_t.value_or(0.0));
}

Reasons reasons_of(const MachineLoad& machine, const MachineStress& stress,
                   const GroundState<double>& ground, const GroundLimits& limits) {
  Reasons reasons;
  if (stress.lightest)
    say_water_on_top(ground, reasons);
  else
    reasons = gate_reasons(stress.treads ? gate::as_trodden(ground) : ground, limits);
  const bool gate_open = reasons.empty();
  if (gate_open && !stress.passes_wet()) say_light_only(ground, limits, reasons);
  if (gate_open && stress.cultivates) say_crumbling(ground, limits, reasons);
  if (!stress.treads)
    say_machine_test(stress, ground, limits, reasons);
  else if (gate_open && ground.deep_frost < 0.5)
    reasons.push_back({Kind::treads_topsoil, ground.topsoil_deficit_mm, limits.topsoil_deficit_mm});
  if (gate_open && ground.deep_frost > 0.5) reasons.push_back({.kind = Kind::frost_carries});
  if (gate_open && stress.cultivates && may_blow(ground, limits))
    reasons.push_back({.kind = Kind::may_blow});
  if (!machine.mass_t && !stress.lightest && !stress.treads)
    reasons.push_back({.kind = Kind::mass_unknown});
  return reasons;
}

}  // namespace

std::vector<GroundReason> gate_reasons(const GroundState<double>& ground,
                                       const GroundLimits& limits) {
  Reasons reasons;
  say_water_on_top(ground, reasons);
  say_if_closed(gate::of_snow(ground, limits), {Kind::snow, ground.snow_mm, limits.snow_mm},
                reasons);
  say_wet_soil(ground, limits, reasons);
  return reasons;
}

GroundVerdict judge_machine(const MachineLoad& machine, const GroundState<double>& ground,
                            const GroundLimits& limits) {
  GroundVerdict out;
  if (!is_known(machine) || !is_known(ground)) {
    out.reasons.push_back({.kind = Kind::numbers_missing});
    return out;
  }
  const MachineStress stress = machine_stress(machine, limits);
  out.margin = machine_margin(stress, ground_strength(ground, limits), limits);
  out.verdict = verdict_of(*out.margin, limits);
  out.reasons = reasons_of(machine, stress, ground, limits);
  return out;
}

GroundVerdict verdict_in_silence(const Silence& silence) {
  GroundVerdict out;
  out.reasons.push_back({Kind::station_silent, silence.silent_h, silence.allowed_h});
  return out;
}

GroundVerdict verdict_between(const TwoVerdicts& two) {
  const auto& [said, wetter, wetter_mm] = two;
  if (said.verdict == wetter.verdict || said.verdict == Verdict::not_known) return said;
  GroundVerdict out = wetter.verdict > said.verdict ? wetter : said;
  const bool apart = said.verdict != Verdict::with_care && wetter.verdict != Verdict::with_care;
  if (apart) {
    out.verdict = Verdict::not_known;
    out.margin.reset();
  }
  out.reasons.insert(out.reasons.begin(), {Kind::rain_not_known, wetter_mm, 0.0});
  return out;
}

}  // namespace gley::model

#include "model/ground/remedy.hpp"

#include <cmath>

#include "model/ground/ground_margin.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

constexpr double tenths = 10.0;

Verdict verdict_on(const MachineLoad& machine, const GroundStrength<double>& ground,
                   const GroundLimits& limits) {
  return verdict_of(machine_margin(machine_stress(machine, limits), ground, limits), limits);
}

bool can_improve(Verdict verdict) {
  return verdict == Verdict::keep_off || verdict == Verdict::with_care;
}

/// Verdict stands from the best to the worst, so the smaller is the better.
bool better(Verdict a, Verdict b) {
  return static_cast<int>(a) < static_cast<int>(b);
}

/// Steps down by tenths from below `from` to `least`, taking the first that improves the verdict.
/// changed: the machine at a value.
template <class Changed>
std::optional<Remedy> first_better(double from, double least, const GroundState<double>& ground,
                                   const GroundLimits& limits, Changed changed) {
  const GroundStrength<double> strength = ground_strength(ground, limits);
  const Verdict now = verdict_on(changed(from), strength, limits);
  if (!can_improve(now)) return {};
  const auto highest = static_cast<int>(std::ceil(from * tenths)) - 1;
  const auto lowest = static_cast<int>(std::lround(least * tenths));
  for (int step = highest; step >= lowest; --step) {
    const double value = step / tenths;
    const Verdict then = verdict_on(changed(value), strength, limits);
    if (better(then, now)) return Remedy{.value = value, .verdict = then};
  }
  return {};
}

/// In tenths of a bar.
double least_pressure_of(const WheelLoad& wheel) {
  constexpr double kpa_per_bar = 100.0;
  const double of_contact_bar = wheel.load_t * gravity_m_s2 / largest_contact_m2 / kpa_per_bar;
  return greatest(least_pressure_bar, std::ceil(of_contact_bar * tenths) / tenths);
}

/// A machine of known empty weight, filled to a share of its tank. The mass follows the wheel where
/// the empty mass is not known.
MachineLoad filled(const MachineLoad& full, double fill) {
  MachineLoad out = full;
  const double empty_t = *full.empty_wheel_load_t;
  const double gained_t = full.heaviest_wheel.load_t - empty_t;
  out.heaviest_wheel.load_t = empty_t + fill * gained_t;
  if (!full.mass_t) return out;
  if (full.empty_mass_t)
    out.mass_t = *full.empty_mass_t + fill * (*full.mass_t - *full.empty_mass_t);
  else
    out.mass_t = *full.mass_t * out.heaviest_wheel.load_t / full.heaviest_wheel.load_t;
  return out;
}

}  // namespace

std::optional<Remedy> pressure_that_carries_bar(const MachineLoad& machine,
                                                const GroundState<double>& ground,
                                                const GroundLimits& limits) {
  if (machine.tread != Tread::wheels) return {};
  const auto at_pressure = [&machine](double pressure_bar) {
    MachineLoad changed = machine;
    changed.heaviest_wheel.pressure_bar = pressure_bar;
    return changed;
  };
  return first_better(machine.heaviest_wheel.pressure_bar,
                      least_pressure_of(machine.heaviest_wheel), ground, limits, at_pressure);
}

std::optional<Remedy> load_share_that_carries(const MachineLoad& machine,
                                              const GroundState<double>& ground,
                                              const GroundLimits& limits) {
  if (machine.tread == Tread::hooves) return {};
  if (machine.empty_wheel_load_t)
    return first_better(1.0, 0.0, ground, limits,
                        [&machine](double fill) { return filled(machine, fill); });
  const auto at_share = [&machine](double share) {
    MachineLoad changed = machine;
    changed.heaviest_wheel.load_t *= share;
    if (changed.mass_t) *changed.mass_t *= share;
    return changed;
  };
  return first_better(1.0, least_load_share, ground, limits, at_share);
}

}  // namespace gley::model

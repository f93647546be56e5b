#include "model/ground/machine_stress.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

constexpr double kg_cm2_per_bar = 100.0 / 98.0665;
constexpr int wet_concentration = 6;
constexpr int moist_concentration = 5;
constexpr int firm_concentration = 4;

StressAtDepths stress_in(const WheelContact& contact, const GroundLimits& limits,
                         int concentration) {
  return {.deep_kpa = vertical_stress_kpa(contact, limits.deep_m, concentration),
          .shallow_kpa = vertical_stress_kpa(contact, limits.shallow_m, concentration)};
}

double asked_of_soil_kpa(const StressAtDepths& stress, const GroundLimits& limits) {
  return greatest(stress.deep_kpa, stress.shallow_kpa / limits.shallow_bears_times);
}

}  // namespace

double suction_for_mass_kpa(const MassOnGround& machine, const GroundLimits& limits) {
  return limits.suction_per_mass_and_pressure * machine.mass_t *
         (machine.pressure_bar * kg_cm2_per_bar);
}

MachineStress machine_stress(const MachineLoad& machine, const GroundLimits& limits) {
  const WheelLoad& wheel = machine.heaviest_wheel;
  const WheelContact contact = contact_of(wheel);
  MachineStress out;
  out.wet = stress_in(contact, limits, wet_concentration);
  out.moist = stress_in(contact, limits, moist_concentration);
  out.firm = stress_in(contact, limits, firm_concentration);
  out.asks_wet_kpa = asked_of_soil_kpa(out.wet, limits);
  out.asks_moist_kpa = asked_of_soil_kpa(out.moist, limits);
  out.asks_firm_kpa = asked_of_soil_kpa(out.firm, limits);
  out.light =
      wheel.load_t <= limits.light_wheel_load_t && wheel.pressure_bar <= limits.light_pressure_bar;
  out.treads = machine.tread == Tread::hooves;
  out.lightest = !out.treads && wheel.load_t <= limits.lightest_wheel_load_t &&
                 wheel.pressure_bar <= limits.lightest_pressure_bar;
  if (machine.mass_t && !out.lightest && !out.treads)
    out.asks_suction_kpa = suction_for_mass_kpa(
        {.mass_t = *machine.mass_t, .pressure_bar = wheel.pressure_bar}, limits);
  out.cultivates = machine.cultivates;
  return out;
}

}  // namespace gley::model

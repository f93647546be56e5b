#pragma once
#include <optional>

#include "model/ground/ground_limits.hpp"
#include "model/ground/wheel_stress.hpp"

namespace gley::model {

/// What bears the load on the ground.
enum class Tread { wheels, tracks, hooves };

/// A machine as its owner knows it. Grazing stock is one too: its heaviest wheel is a hoof.
struct MachineLoad {
  WheelLoad heaviest_wheel;
  std::optional<double> mass_t = {};              ///< of the whole outfit
  bool cultivates = false;                        ///< works the topsoil: that must crumble
  std::optional<double> empty_wheel_load_t = {};  ///< of the same wheel, tank or hopper empty
  std::optional<double> empty_mass_t = {};
  Tread tread = Tread::wheels;
};

/// Stress at the two depths of the machine test, kPa.
struct StressAtDepths {
  double deep_kpa = 0.0;
  double shallow_kpa = 0.0;
};

/// What the machine test needs of a machine, worked out once for all fields and days.
struct MachineStress {
  StressAtDepths wet;
  StressAtDepths moist;
  StressAtDepths firm;
  /// The strength at the deep level that each of these asks for: the worse of the two depths.
  double asks_wet_kpa = 0.0;
  double asks_moist_kpa = 0.0;
  double asks_firm_kpa = 0.0;
  /// Suction the whole mass asks for; absent for the lightest wheels and where no mass is known.
  std::optional<double> asks_suction_kpa = {};
  bool light = false;     ///< light and low in pressure
  bool lightest = false;  ///< so light that only standing water and thaw stop it
  bool cultivates = false;
  /// Hooves tread the topsoil and little below it: its deficit decides, not stress at depth.
  bool treads = false;

  /// Whether it may go where the ground bears light wheels only.
  [[nodiscard]] bool passes_wet() const { return light || lightest || treads; }
};

[[nodiscard]] MachineStress machine_stress(const MachineLoad& machine, const GroundLimits& limits);

/// Suction a machine's mass asks for, kPa = 1.25 * mass, t * pressure, kg/cm2: the Swiss suction
/// rule, a screen for tyres. Check: 24 t at 0.39 kg/cm2 -> 12, at 0.52 -> 16.
struct MassOnGround {
  double mass_t = 0.0;
  double pressure_bar = 0.0;
};
[[nodiscard]] double suction_for_mass_kpa(const MassOnGround& machine, const GroundLimits& limits);

}  // namespace gley::model

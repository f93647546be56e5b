#pragma once
#include "model/ground/ground_limits.hpp"
#include "model/ground/ground_state.hpp"
#include "model/ground/machine_stress.hpp"
#include "model/ground/verdict.hpp"
#include "model/numeric/lane.hpp"
#include "model/soil/retention.hpp"

/// The numbers behind a verdict, without its words: one GroundStrength a field and day, one margin
/// a machine on it. Written on V, so that many fields run side by side; machines are the same for
/// all lanes. No power, no root.
///
/// A gate's margin is 1 while it is open and, closed, how far the field is from opening it, from -1
/// to just under 0: a margin alone tells the verdict.
namespace gley::model {

/// Suction of a subsoil near saturation counts as this, so that a margin stays finite. Our choice.
inline constexpr double least_suction_kpa = 0.1;
/// So does a topsoil at field capacity: a deficit of this. Our choice.
inline constexpr double least_deficit_mm = 0.1;
/// A closed gate's margin lies at or below this.
inline constexpr double closed_at_most = -1e-9;

/// What a field offers on a day, whichever machine asks.
template <class V>
struct GroundStrength {
  V bears_kpa{0.0};  ///< stress that the soil stands at the deep level
  V suction_subsoil_kpa{0.0};
  V gate{1.0};           ///< of ordinary wheels
  V lightest_gate{1.0};  ///< of the lightest wheels
  V treading_gate{1.0};  ///< of hooves
  V heavy_wheel_gate{1.0};
  V crumbling_gate{1.0};
  V treading_ratio{0.0};  ///< topsoil deficit that hooves need over what there is
  double extra_suction_kpa = 0.0;
};

namespace gate {

/// Closed where `value` is under `needed`.
template <class V>
[[nodiscard]] V at_least(const V& value, double needed) {
  const V short_by = greatest(V(-1.0), least(V(closed_at_most), value / V(needed) - V(1.0)));
  return select(value < V(needed), short_by, V(1.0));
}

/// Closed where `value` is over `allowed`.
template <class V>
[[nodiscard]] V at_most(const V& value, double allowed) {
  const V over_by = greatest(V(-1.0), least(V(closed_at_most), V(1.0) - value / V(allowed)));
  return select(V(allowed) < value, over_by, V(1.0));
}

/// Closed where a 0-or-1 condition holds.
template <class V>
[[nodiscard]] V unless(const V& condition) {
  return select(V(0.5) < condition, V(-1.0), V(1.0));
}

/// Lying snow hides the ground.
template <class V>
[[nodiscard]] V of_snow(const GroundState<V>& ground, const GroundLimits& limits) {
  return select(ground.snow_mm < V(limits.snow_mm), V(1.0), V(-1.0));
}

/// Wetness of the soil and the rain that fell.
template <class V>
[[nodiscard]] V of_wet_soil(const GroundState<V>& ground, const GroundLimits& limits) {
  const V soil = least(at_least(ground.topsoil_deficit_mm, limits.topsoil_deficit_mm),
                       at_least(ground.suction_subsoil_kpa, limits.subsoil_suction_kpa));
  const V rained = least(soil, at_most(ground.rain_24h_mm, limits.rain_24h_mm));
  if (ground.clay_pct <= limits.heavy_clay_pct) return rained;
  const V suction = least(ground.suction_topsoil_kpa, ground.suction_subsoil_kpa);
  return least(rained, at_least(suction, limits.heavy_clay_closed_kpa));
}

/// The ground as a hoof finds it: of the topsoil alone.
template <class V>
[[nodiscard]] GroundState<V> as_trodden(const GroundState<V>& ground) {
  GroundState<V> trodden = ground;
  trodden.suction_subsoil_kpa = ground.suction_topsoil_kpa;
  return trodden;
}

/// Below this suction only light wheels pass.
template <class V>
[[nodiscard]] double light_only_below_kpa(const GroundState<V>& ground,
                                          const GroundLimits& limits) {
  return ground.clay_pct > limits.heavy_clay_pct ? limits.light_only_heavy_clay_kpa
                                                 : limits.light_only_kpa;
}

/// Deep frost lies open to wheels, never to tines.
template <class V>
[[nodiscard]] V of_crumbling(const GroundState<V>& ground, const GroundLimits& limits) {
  const V suction = ground.suction_topsoil_kpa;
  const V moist = least(at_least(suction, limits.crumbles_from_kpa), unless(ground.deep_frost));
  if (ground.clay_pct < limits.clods_from_clay_pct) return moist;
  return least(moist, at_most(suction, limits.crumbles_to_kpa));
}

}  // namespace gate

/// Stress that the subsoil stands at the deep level, kPa: 50 when moist, rising with its suction
/// stress, suction * saturation, over that at field capacity, to 150 at most. Form and direction
/// after Schjønning et al. (2023), Adv. Agron. (abstract; its best model explains 39 %); numbers
/// our choice, deliberately shallow. Wetter than 10 kPa it stays at 50: in coarse sand suction
/// stress would rise again towards saturation.
template <class V>
[[nodiscard]] V bearing_limit_kpa(const GroundState<V>& ground, const GroundLimits& limits) {
  const V at_capacity(suction_at_field_capacity_kpa * ground.subsoil_saturation_at_capacity);
  const V rise =
      greatest(V(0.0), ground.suction_subsoil_kpa * ground.subsoil_saturation - at_capacity);
  const V drier =
      select(ground.suction_subsoil_kpa < V(suction_at_field_capacity_kpa), V(0.0), rise);
  return least(V(limits.bears_at_most_kpa), V(limits.bears_moist_kpa) + drier);
}

template <class V>
[[nodiscard]] GroundStrength<V> ground_strength(const GroundState<V>& ground,
                                                const GroundLimits& limits) {
  const V suction = least(ground.suction_topsoil_kpa, ground.suction_subsoil_kpa);
  const auto frost_carries = V(0.5) < ground.deep_frost;
  const V wet = least(gate::unless(ground.waterlogged), gate::of_wet_soil(ground, limits));
  const V thaw = gate::unless(ground.thaw);
  GroundStrength<V> out;
  out.bears_kpa = bearing_limit_kpa(ground, limits);
  out.suction_subsoil_kpa = ground.suction_subsoil_kpa;
  const V open_sky = least(thaw, gate::of_snow(ground, limits));
  out.gate = least(open_sky, select(frost_carries, V(1.0), wet));
  const V trodden =
      least(gate::unless(ground.waterlogged), gate::of_wet_soil(gate::as_trodden(ground), limits));
  out.treading_gate = least(open_sky, select(frost_carries, V(1.0), trodden));
  out.lightest_gate = least(thaw, select(frost_carries, V(1.0), gate::unless(ground.waterlogged)));
  out.heavy_wheel_gate = select(
      frost_carries, V(1.0), gate::at_least(suction, gate::light_only_below_kpa(ground, limits)));
  out.crumbling_gate = gate::of_crumbling(ground, limits);
  out.treading_ratio = select(
      frost_carries, V(0.0),
      V(limits.topsoil_deficit_mm) / greatest(V(least_deficit_mm), ground.topsoil_deficit_mm));
  out.extra_suction_kpa =
      ground.clay_pct > limits.heavy_clay_pct ? limits.heavy_clay_extra_kpa : 0.0;
  return out;
}

/// Worst of the machine's asks over what the soil offers: at both depths, and for its mass; of
/// hooves, the topsoil's deficit alone.
template <class V>
[[nodiscard]] V worst_ratio(const MachineStress& machine, const GroundStrength<V>& ground,
                            const GroundLimits& limits) {
  if (machine.treads) return ground.treading_ratio;
  const V& suction = ground.suction_subsoil_kpa;
  const V drier = select(suction < V(limits.moist_below_kpa), V(machine.asks_moist_kpa),
                         V(machine.asks_firm_kpa));
  const V asked = select(suction < V(limits.wet_below_kpa), V(machine.asks_wet_kpa), drier);
  const V pressed = asked / ground.bears_kpa;
  if (!machine.asks_suction_kpa) return pressed;
  const V needed(*machine.asks_suction_kpa + ground.extra_suction_kpa);
  return greatest(pressed, needed / greatest(V(least_suction_kpa), suction));
}

/// 1 - the worst ratio, and no more than any closed gate leaves.
template <class V>
[[nodiscard]] V machine_margin(const MachineStress& machine, const GroundStrength<V>& ground,
                               const GroundLimits& limits) {
  const V& wheels_gate = machine.lightest ? ground.lightest_gate : ground.gate;
  const V& gate = machine.treads ? ground.treading_gate : wheels_gate;
  V margin = least(gate, V(1.0) - worst_ratio(machine, ground, limits));
  if (!machine.passes_wet()) margin = least(margin, ground.heavy_wheel_gate);
  if (machine.cultivates) margin = least(margin, ground.crumbling_gate);
  return margin;
}

/// NaN is not known.
[[nodiscard]] constexpr Verdict verdict_of(double margin, const GroundLimits& limits) {
  if (margin >= limits.carries_from_margin) return Verdict::carries;
  if (margin >= 0.0) return Verdict::with_care;
  return margin < 0.0 ? Verdict::keep_off : Verdict::not_known;
}

}  // namespace gley::model

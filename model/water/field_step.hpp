#pragma once
#include "model/crop/stand.hpp"
#include "model/crop/surface_evaporation.hpp"
#include "model/crop/water_stress.hpp"
#include "model/numeric/lane.hpp"
#include "model/water/class_day.hpp"
#include "model/water/field_water.hpp"
#include "model/water/runoff.hpp"

/// One day of a field's water. The only implementation: history, today so far, the outlook and the
/// batch all run it. The same text serves one field (double) and several fields of one class side
/// by side (V of model/numeric/lanes.hpp): it branches on what the class shares, and on `any` where
/// the work passed over would change no field.
///
/// Source: FAO-56 dual crop coefficient (Allen et al. 1998, ch. 7 and 8) for what evaporates and
/// transpires; layers, outlet and ponding are ours. With one uniform soil, no limit to drainage and
/// no runoff the totals are those of the plain FAO-56 bucket.
namespace gley::model {

/// Ground sealed by frost sheds water like a hard surface, curve number 98 (our choice).
inline constexpr double sealed_storage_mm = 0.8187 * 5.0395;  // 0.8187 (25400/98 - 254)^1.15

/// Rain from which a fall wets the whole surface, mm (FAO-56 p. 149: 3 to 4 mm).
inline constexpr double significant_rain_mm = 3.0;

/// Water below field capacity that the roots of today find, mm: FAO-56's Dr. A layer rooted in part
/// counts its deficit in the rooted part first, as FAO-56 does when roots grow into full soil.
template <class V>
[[nodiscard]] V depletion_mm(const ByLayer<double>& rooted_available_mm,
                             const FieldWater<V>& water) {
  V below(0.0);
  for (int l = 0; l < max_layers; ++l) {
    const V of_layer = least(V(0.0), water.excess_mm[l]);
    below = below + greatest(V(-rooted_available_mm[l]), of_layer);
  }
  return V(0.0) - below;
}
template <class V>
[[nodiscard]] V depletion_mm(const StandDay& stand, const FieldWater<V>& water) {
  return depletion_mm(stand.rooted_available_mm, water);
}

/// Water over field capacity in the rooted depth that still has to drain, mm.
template <class V>
[[nodiscard]] V surplus_mm(const StandDay& stand, const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l)
    sum = sum + stand.rooted_share[l] * greatest(V(0.0), water.excess_mm[l]);
  return sum;
}

/// Water below field capacity in the layers from `first` to before `end`, mm.
template <class V>
[[nodiscard]] V deficit_between_mm(int first, int end, const FieldWater<V>& water) {
  V below(0.0);
  for (int l = first; l < end; ++l) below = below + least(V(0.0), water.excess_mm[l]);
  return V(0.0) - below;
}

/// Water below field capacity in the top 300 mm, mm.
template <class V>
[[nodiscard]] V topsoil_deficit_mm(const FieldWater<V>& water) {
  return deficit_between_mm(0, topsoil_layers, water);
}

/// Water over field capacity in the top 300 mm, mm.
template <class V>
[[nodiscard]] V topsoil_surplus_mm(const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < topsoil_layers; ++l) sum = sum + greatest(V(0.0), water.excess_mm[l]);
  return sum;
}

/// How full the topsoil's room above field capacity is, 0..1.
template <class V>
[[nodiscard]] V topsoil_fill(const FieldParameters& field, const FieldWater<V>& water) {
  return topsoil_surplus_mm(water) / field.topsoil_room_mm;
}

namespace step {

/// Water below field capacity in all the soil, mm.
template <class V>
V profile_deficit_mm(const FieldWater<V>& water) {
  return deficit_between_mm(0, max_layers, water);
}

/// The curve number's storage: the wet one at field capacity, larger by what the soil is short of,
/// to the dry one at most. Ours, in place of the curve-number forms that let storage fall faster
/// than water comes in, by which rain could leave a field drier: Q changes by at most 1.05 S, so
/// 0.95 mm of storage a mm of deficit keeps more rain from ever leaving less water.
template <class V>
V storm_runoff(const ClassDay& today, const DayForcing<V>& day, const FieldWater<V>& water) {
  if (!today.sheds_storms) return V(0.0);
  const V open_mm =
      least(V(today.storage_dry_mm), today.storage_wet_mm + 0.95 * profile_deficit_mm(water));
  return storm_runoff_mm(day.water_mm, select(0.5 < day.sealed, V(sealed_storage_mm), open_mm));
}

/// FAO-56 p. 149 with its errata: a significant fall wets all, else the irrigation its own share.
template <class V>
V wetted_fraction(const DayForcing<V>& day, const V& before) {
  const V irrigated = select(V(0.0) < day.irrigation_mm, day.irrigation_wetted_fraction, before);
  return select(day.water_mm < V(significant_rain_mm), irrigated, V(1.0));
}

/// Irrigation on the part of the ground that it wets, mm.
template <class V>
V concentrated_irrigation_mm(const DayForcing<V>& day, const V& wetted_fraction) {
  if (!any(V(0.0) < day.irrigation_mm)) return V(0.0);
  return day.irrigation_mm / wetted_fraction;
}

/// Evaporation over the exposed and wetted part of the ground alone, mm (the E/few of Eq. 77).
template <class V>
V concentrated_evaporation_mm(const ClassDay& today, const V& evaporation_mm, const V& wetted) {
  if (!any(wetted < V(today.exposed))) return evaporation_mm * today.per_exposed;
  const V per_wetted = select(V(0.0) < wetted, 1.0 / wetted, V(0.0));
  return evaporation_mm * select(wetted < V(today.exposed), per_wetted, V(today.per_exposed));
}

/// What the weather would take: soil evaporation and transpiration before the soil's own limit.
template <class V>
struct Demand {
  V evaporation_mm{0.0};
  V transpiration_mm{0.0};
};

/// Ex. 35 note 9, Ex. 38 note 5: water that comes early in the day decides Kr and Ks. The roots are
/// relieved only by the water that came to them, so this follows the handing down.
template <class V>
Demand<V> demand(const ClassDay& today, const DayForcing<V>& day, const V& surface_wetting_mm,
                 const FieldWater<V>& water, DayFluxes<V>& out) {
  out.few = exposed_wetted_fraction_few(
      BareGround<V>{.exposed = V(today.exposed), .wetted_fraction = water.wetted_fraction});
  out.surface_depletion_start_mm =
      greatest(V(0.0), water.surface_depletion_mm - surface_wetting_mm);
  out.kr =
      evaporation_reduction_kr(EvaporationLayer<V>{.depletion_mm = out.surface_depletion_start_mm,
                                                   .readily_evaporable_mm = today.rew_mm,
                                                   .totally_evaporable_mm = today.tew_mm});
  out.ke = evaporation_coefficient_ke(EvaporationLimits<V>{
      .kr = out.kr, .kc_max = V(today.kc_max), .kcb = V(today.kcb), .few = out.few});
  Demand<V> wanted;
  wanted.evaporation_mm = out.ke * day.et0_mm;
  out.depletion_fraction = adjusted_depletion_fraction(DepletionFraction<V>{
      .table_p = V(today.table_p), .unstressed_etc_mm = (today.kcb + out.ke) * day.et0_mm});
  out.depletion_start_mm = depletion_mm(today.rooted_available_mm, water);
  out.ks = stress_coefficient_ks(RootZone<V>{.depletion_mm = out.depletion_start_mm,
                                             .total_available_mm = V(today.total_available_mm),
                                             .depletion_fraction = out.depletion_fraction});
  wanted.transpiration_mm = out.ks * (today.kcb * day.et0_mm);
  return wanted;
}

/// Rain that falls through cracks to the deficits under a dry topsoil; returns what it used.
template <class V>
V fill_through_cracks(const ClassDay& today, const V& water_mm, FieldWater<V>& water) {
  if (!(0.0 < today.crack_share)) return V(0.0);
  const V share = least(V(today.crack_share), today.crack_share_per_mm * topsoil_deficit_mm(water));
  const V offered = share * water_mm;
  if (!any(V(0.0) < offered)) return V(0.0);
  V left = offered;
  for (int l = topsoil_layers; l < max_layers; ++l) {
    const V taken = least(left, greatest(V(0.0), V(0.0) - water.excess_mm[l]));
    water.excess_mm[l] = water.excess_mm[l] + taken;
    left = left - taken;
  }
  return offered - left;
}

/// Water over field capacity that leaves a layer whatever its share, mm/day: a share alone never
/// comes to an end, and numbers too small for full precision are slow.
inline constexpr double last_drop_mm = 1e-12;

/// Hands water down from the top, each layer keeping what it is short of and passing on what its
/// conductivity and its slow layer let through. A slow layer's rate is that of wet ground under it;
/// dry ground there draws in what it is short of besides, by suction and cracks (ours). Returns
/// what reaches the base of the profile.
template <class V>
V hand_down(const ClassDay& today, const V& entering_mm, FieldWater<V>& water) {
  V falling = entering_mm;
  for (int l = 0; l < max_layers; ++l) {
    const V held = water.excess_mm[l] + falling;
    const V mobile = greatest(V(0.0), held);
    const V released = greatest(mobile * today.release_share[l], least(mobile, V(last_drop_mm)));
    V limit(today.pass_limit_mm[l]);
    if (l == today.slow_layer) limit = limit + deficit_between_mm(l + 1, max_layers, water);
    falling = least(released, limit);
    water.excess_mm[l] = held - falling;
  }
  return falling;
}

/// Water that the roots of today can reach in each layer, mm.
template <class V>
ByLayer<V> in_reach_mm(const ClassDay& today, const FieldWater<V>& water) {
  ByLayer<V> reach;
  for (int l = 0; l < max_layers; ++l)
    reach[l] = greatest(V(0.0), water.excess_mm[l] + today.reach_offset_mm[l]);
  return reach;
}

/// Takes `taken` from a layer, out of what is in reach of it.
template <class V>
void take(const V& taken, V& excess_mm, V& reach_mm) {
  excess_mm = excess_mm - taken;
  reach_mm = reach_mm - taken;
}

/// Takes `wanted` from the layers from the top down; the first nearly always has enough.
template <class V>
void take_from_the_top(const V& wanted, ByLayer<V>& reach, FieldWater<V>& water) {
  V left = wanted;
  for (int l = 0; l < max_layers; ++l) {
    const V taken = least(left, reach[l]);
    take(taken, water.excess_mm[l], reach[l]);
    left = left - taken;
    if (!any(V(0.0) < left)) return;
  }
}

/// Stands for nothing in a denominator.
inline constexpr double nearly_nothing_mm = 1e-290;

/// Takes `wanted` by the roots' share and how full each layer is. Where that asks more of a layer
/// than it has, the rest comes from all layers by their water alone.
template <class V>
void take_by_roots(const ClassDay& today, const V& wanted, ByLayer<V>& reach,
                   FieldWater<V>& water) {
  ByLayer<V> weight;
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l) {
    weight[l] = today.uptake_weight[l] * reach[l];
    sum = sum + weight[l];
  }
  const V per_weight = wanted / greatest(sum, V(nearly_nothing_mm));
  const auto is_short = V(1.0) < per_weight * today.largest_uptake_weight;
  if (!any(is_short)) {
    for (int l = 0; l < max_layers; ++l)
      water.excess_mm[l] = water.excess_mm[l] - per_weight * weight[l];
    return;
  }
  V left = wanted;
  V rest(0.0);
  for (int l = 0; l < max_layers; ++l) {
    const V even = per_weight * weight[l];
    const V taken = select(is_short, least(even, reach[l]), even);
    take(taken, water.excess_mm[l], reach[l]);
    left = left - taken;
    rest = rest + reach[l];
  }
  left = select(is_short, left, V(0.0));
  const V share = least(V(1.0), left / greatest(rest, V(nearly_nothing_mm)));
  for (int l = 0; l < max_layers; ++l) water.excess_mm[l] = water.excess_mm[l] - share * reach[l];
}

/// Evaporation and transpiration: first from the water on its way out (Eq. 88: percolation is what
/// the day's ET leaves), then from the soil. Only the day's own water is met on its way: what comes
/// out of the base from falls before lies under the roots. What the roots cannot reach comes off
/// evaporation first (our reading of the limit in Eq. 86), so that the balance closes.
template <class V>
void evaporate(const ClassDay& today, const Demand<V>& wanted, const V& entered_mm, V& leaving_mm,
               FieldWater<V>& water, DayFluxes<V>& out) {
  ByLayer<V> reach = in_reach_mm(today, water);
  const V passing_mm = least(leaving_mm, entered_mm);
  V in_reach = passing_mm;
  for (int l = 0; l < max_layers; ++l) in_reach = in_reach + reach[l];
  out.transpiration_mm = least(wanted.transpiration_mm, in_reach);
  out.evaporation_mm = least(wanted.evaporation_mm, in_reach - out.transpiration_mm);

  const V evaporated_in_passing = least(passing_mm, out.evaporation_mm);
  leaving_mm = leaving_mm - evaporated_in_passing;
  const V transpired_in_passing = least(passing_mm - evaporated_in_passing, out.transpiration_mm);
  leaving_mm = leaving_mm - transpired_in_passing;

  take_from_the_top(out.evaporation_mm - evaporated_in_passing, reach, water);
  take_by_roots(today, out.transpiration_mm - transpired_in_passing, reach, water);
}

/// Pipes take what stands over field capacity above the slow layer, the deepest first.
template <class V>
V drain_by_pipes(const ClassDay& today, FieldWater<V>& water) {
  V left(today.pipe_rate_mm);
  for (int l = today.piped_layers - 1; l >= 0; --l) {
    const V taken = least(left, greatest(V(0.0), water.excess_mm[l]));
    water.excess_mm[l] = water.excess_mm[l] - taken;
    left = left - taken;
  }
  return today.pipe_rate_mm - left;
}

/// Whether a layer of any lane holds more than it has room for.
template <class V>
bool overfull(const ClassDay& today, const FieldWater<V>& water) {
  V most_over = water.excess_mm[0] - today.room_mm[0];
  for (int l = 1; l < max_layers; ++l)
    most_over = greatest(most_over, water.excess_mm[l] - today.room_mm[l]);
  return any(V(0.0) < most_over);
}

/// What a layer has no room for rises into the one above, then stands, then runs off.
template <class V>
V back_up(const ClassDay& today, FieldWater<V>& water) {
  if (!overfull(today, water)) {
    water.pond_mm = V(0.0);
    return V(0.0);
  }
  V rising(0.0);
  for (int l = max_layers - 1; l >= 0; --l) {
    const V held = water.excess_mm[l] + rising;
    rising = greatest(V(0.0), held - today.room_mm[l]);
    water.excess_mm[l] = held - rising;
  }
  const V standing = rising;
  water.pond_mm = least(standing, V(today.pond_limit_mm));
  return standing - water.pond_mm;
}

/// Hysteresis of the wetness words: 'waterlogged' from half the topsoil's room full, or ponded, to
/// under 0.3; 'at field capacity' from Dr of 1 mm to a topsoil deficit over 3 mm.
template <class V>
void remember_wetness(const ClassDay& today, FieldWater<V>& water) {
  const V wet = select(V(0.0) < water.pond_mm, V(today.topsoil_room_mm), topsoil_surplus_mm(water));
  water.waterlogged =
      select(wet < V(0.3 * today.topsoil_room_mm), V(0.0),
             select(wet < V(0.5 * today.topsoil_room_mm), water.waterlogged, V(1.0)));
  const V stays = select(V(3.0) < topsoil_deficit_mm(water), V(0.0), water.at_capacity);
  water.at_capacity =
      select(V(1.0) < depletion_mm(today.rooted_available_mm, water), stays, V(1.0));
}

}  // namespace step

/// Steps a field by one day. Units mm. The balance closes:
/// water + irrigation = evaporation + transpiration + runoff + drainage + pipes + change held.
template <class V>
DayFluxes<V> field_step(const ClassDay& today, const DayForcing<V>& day, FieldWater<V>& water) {
  DayFluxes<V> out;
  const V storm_mm = step::storm_runoff(today, day, water);
  const V entering_mm = day.water_mm - storm_mm;
  water.wetted_fraction = step::wetted_fraction(day, water.wetted_fraction);
  const V surface_wetting_mm =
      entering_mm + step::concentrated_irrigation_mm(day, water.wetted_fraction);
  const V offered_mm = entering_mm + day.irrigation_mm + water.pond_mm;
  out.bypass_mm = step::fill_through_cracks(today, offered_mm, water);
  const V entered_mm = offered_mm - out.bypass_mm;
  V leaving_mm = step::hand_down(today, entered_mm, water);
  const step::Demand<V> wanted = step::demand(today, day, surface_wetting_mm, water, out);
  step::evaporate(today, wanted, entered_mm, leaving_mm, water, out);
  out.drainage_mm = leaving_mm;
  out.pipe_drain_mm = step::drain_by_pipes(today, water);
  out.runoff_mm = storm_mm + step::back_up(today, water);
  water.surface_depletion_mm =  // FAO-56 Eq. 77 to 79, with the evaporation as it came out
      least(V(today.tew_mm),
            out.surface_depletion_start_mm + step::concentrated_evaporation_mm(
                                                 today, out.evaporation_mm, water.wetted_fraction));
  step::remember_wetness(today, water);
  return out;
}

/// The same for a field that shares its class's day with no other.
template <class V>
DayFluxes<V> field_step(const FieldParameters& field, const StandDay& stand,
                        const DayForcing<V>& day, FieldWater<V>& water) {
  return field_step(class_day(field, stand), day, water);
}

}  // namespace gley::model

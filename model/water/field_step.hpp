#pragma once
#include "model/crop/stand.hpp"
#include "model/crop/surface_evaporation.hpp"
#include "model/crop/water_stress.hpp"
#include "model/numeric/lane.hpp"
#include "model/water/field_parameters.hpp"
#include "model/water/field_water.hpp"
#include "model/water/runoff.hpp"

/// One day of a field's water. The only implementation: history, today so far, the outlook and the
/// batch all run it. Written without branches on V, so that the same text serves one field (double)
/// and a vector of fields of one class.
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
[[nodiscard]] V depletion_mm(const StandDay& stand, const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l) {
    const V deficit = greatest(V(0.0), V(0.0) - water.excess_mm[l]);
    sum = sum + least(deficit, V(stand.rooted_available_mm[l]));
  }
  return sum;
}

/// Water over field capacity in the rooted depth that still has to drain, mm.
template <class V>
[[nodiscard]] V surplus_mm(const StandDay& stand, const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l)
    sum = sum + stand.rooted_share[l] * greatest(V(0.0), water.excess_mm[l]);
  return sum;
}

/// Water below field capacity in the top 300 mm, mm.
template <class V>
[[nodiscard]] V topsoil_deficit_mm(const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < topsoil_layers; ++l)
    sum = sum + greatest(V(0.0), V(0.0) - water.excess_mm[l]);
  return sum;
}

/// How full the topsoil's room above field capacity is, 0..1.
template <class V>
[[nodiscard]] V topsoil_fill(const FieldParameters& field, const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < topsoil_layers; ++l) sum = sum + greatest(V(0.0), water.excess_mm[l]);
  return sum / field.topsoil_room_mm;
}

namespace step {

/// Water below field capacity in all the soil, mm.
template <class V>
V profile_deficit_mm(const FieldWater<V>& water) {
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l) sum = sum + greatest(V(0.0), V(0.0) - water.excess_mm[l]);
  return sum;
}

/// The curve number's storage: the wet one at field capacity, larger by what the soil is short of,
/// to the dry one at most. Ours, in place of the curve-number forms that let storage fall faster
/// than water comes in, by which rain could leave a field drier: Q changes by at most 1.05 S, so
/// 0.95 mm of storage a mm of deficit keeps more rain from ever leaving less water.
template <class V>
V storm_runoff(const StandDay& stand, const DayForcing<V>& day, const FieldWater<V>& water) {
  const V open_mm =
      least(V(stand.storage_dry_mm), stand.storage_wet_mm + 0.95 * profile_deficit_mm(water));
  const V storage_mm = select(0.5 < day.sealed, V(sealed_storage_mm), open_mm);
  return select(0.5 < stand.sheds_storms, storm_runoff_mm(day.water_mm, storage_mm), V(0.0));
}

/// FAO-56 p. 149 with its errata: a significant fall wets all, else the irrigation its own share.
template <class V>
V wetted_fraction(const DayForcing<V>& day, const V& before) {
  const V irrigated = select(V(0.0) < day.irrigation_mm, day.irrigation_wetted_fraction, before);
  return select(day.water_mm < V(significant_rain_mm), irrigated, V(1.0));
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
Demand<V> demand(const FieldParameters& field, const StandDay& stand, const DayForcing<V>& day,
                 const V& entering_mm, const FieldWater<V>& water, DayFluxes<V>& out) {
  out.few = exposed_wetted_fraction_few(
      GroundCover<V>{.cover = V(stand.cover), .wetted_fraction = water.wetted_fraction});
  const V wetting_mm = entering_mm + day.irrigation_mm / water.wetted_fraction;
  out.surface_depletion_start_mm = greatest(V(0.0), water.surface_depletion_mm - wetting_mm);
  out.kr =
      evaporation_reduction_kr(EvaporationLayer<V>{.depletion_mm = out.surface_depletion_start_mm,
                                                   .readily_evaporable_mm = V(field.rew_mm),
                                                   .totally_evaporable_mm = V(field.tew_mm)});
  out.ke = evaporation_coefficient_ke(EvaporationLimits<V>{
      .kr = out.kr, .kc_max = V(stand.kc_max), .kcb = V(stand.kcb), .few = out.few});
  Demand<V> wanted;
  wanted.evaporation_mm = out.ke * day.et0_mm;
  out.depletion_fraction = adjusted_depletion_fraction(
      DepletionFraction<V>{.table_p = V(stand.depletion_fraction),
                           .unstressed_etc_mm = (stand.kcb + out.ke) * day.et0_mm});
  out.depletion_start_mm = depletion_mm(stand, water);
  out.ks = stress_coefficient_ks(RootZone<V>{.depletion_mm = out.depletion_start_mm,
                                             .total_available_mm = V(stand.total_available_mm),
                                             .depletion_fraction = out.depletion_fraction});
  wanted.transpiration_mm = out.ks * (stand.kcb * day.et0_mm);
  return wanted;
}

/// Rain that falls through cracks to the deficits under a dry topsoil; returns what it used.
template <class V>
V fill_through_cracks(const FieldParameters& field, const V& water_mm, FieldWater<V>& water) {
  const V dryness = least(V(1.0), topsoil_deficit_mm(water) / field.topsoil_available_mm);
  const V offered = field.crack_share * dryness * water_mm;
  V left = offered;
  for (int l = topsoil_layers; l < max_layers; ++l) {
    const V taken = least(left, greatest(V(0.0), V(0.0) - water.excess_mm[l]));
    water.excess_mm[l] = water.excess_mm[l] + taken;
    left = left - taken;
  }
  return offered - left;
}

/// Hands water down from the top, each layer keeping what it is short of and passing on what its
/// conductivity and its slow layer let through. Returns what reaches the base of the profile.
template <class V>
V hand_down(const FieldParameters& field, const V& entering_mm, FieldWater<V>& water) {
  V falling = entering_mm;
  for (int l = 0; l < max_layers; ++l) {
    const V held = water.excess_mm[l] + falling;
    const V mobile = greatest(V(0.0), held);
    falling = least(mobile * field.release_share[l], V(field.pass_limit_mm[l]));
    water.excess_mm[l] = held - falling;
  }
  return falling;
}

template <class V>
V reachable(const StandDay& stand, const FieldWater<V>& water, int layer) {
  const V held = water.excess_mm[layer] + stand.rooted_available_mm[layer];
  return select(0.0 < stand.rooted_share[layer], greatest(V(0.0), held), V(0.0));
}

/// Takes `wanted` from the layers from the top down; returns what could be had.
template <class V>
V take_from_the_top(const StandDay& stand, const V& wanted, FieldWater<V>& water) {
  V left = wanted;
  for (int l = 0; l < max_layers; ++l) {
    const V taken = least(left, reachable(stand, water, l));
    water.excess_mm[l] = water.excess_mm[l] - taken;
    left = left - taken;
  }
  return wanted - left;
}

/// One share of transpiration by root share and water in reach (`by_roots`), or by water alone for
/// what the first could not find. Returns what could be had.
template <class V>
V take_by_weight(const StandDay& stand, const V& wanted, bool by_roots, FieldWater<V>& water) {
  ByLayer<V> weight{};
  V sum(0.0);
  for (int l = 0; l < max_layers; ++l) {
    const V in_reach = reachable(stand, water, l);
    weight[l] = by_roots ? stand.root_share[l] * in_reach : in_reach;
    sum = sum + weight[l];
  }
  const V per_weight = select(V(0.0) < sum, wanted / sum, V(0.0));
  V left = wanted;
  for (int l = 0; l < max_layers; ++l) {
    const V taken = least(least(left, per_weight * weight[l]), reachable(stand, water, l));
    water.excess_mm[l] = water.excess_mm[l] - taken;
    left = left - taken;
  }
  return wanted - left;
}

/// Evaporation and transpiration: first from the water on its way out (Eq. 88: percolation is what
/// the day's ET leaves), then from the soil. What the roots cannot reach comes off evaporation
/// first (our reading of the limit in Eq. 86), so that the balance closes.
template <class V>
void evaporate(const StandDay& stand, const Demand<V>& wanted, V& leaving_mm, FieldWater<V>& water,
               DayFluxes<V>& out) {
  V in_reach = leaving_mm;
  for (int l = 0; l < max_layers; ++l) in_reach = in_reach + reachable(stand, water, l);
  const V transpiration = least(wanted.transpiration_mm, in_reach);
  const V evaporation = least(wanted.evaporation_mm, in_reach - transpiration);

  const V evaporated_in_passing = least(leaving_mm, evaporation);
  leaving_mm = leaving_mm - evaporated_in_passing;
  const V transpired_in_passing = least(leaving_mm, transpiration);
  leaving_mm = leaving_mm - transpired_in_passing;

  out.evaporation_mm =
      evaporated_in_passing + take_from_the_top(stand, evaporation - evaporated_in_passing, water);
  const V from_soil = transpiration - transpired_in_passing;
  const V by_roots = take_by_weight(stand, from_soil, true, water);
  const V by_water = take_by_weight(stand, from_soil - by_roots, false, water);
  out.transpiration_mm = transpired_in_passing + by_roots + by_water;
}

/// Pipes take what stands over field capacity above the slow layer, the deepest first.
template <class V>
V drain_by_pipes(const FieldParameters& field, FieldWater<V>& water) {
  V left(field.pipe_rate_mm);
  for (int l = max_layers - 1; l >= 0; --l) {
    const V taken = least(left, field.piped[l] * greatest(V(0.0), water.excess_mm[l]));
    water.excess_mm[l] = water.excess_mm[l] - taken;
    left = left - taken;
  }
  return field.pipe_rate_mm - left;
}

/// What a layer has no room for rises into the one above, then stands, then runs off.
template <class V>
V back_up(const FieldParameters& field, FieldWater<V>& water) {
  V rising(0.0);
  for (int l = max_layers - 1; l >= 0; --l) {
    const V held = water.excess_mm[l] + rising;
    rising = greatest(V(0.0), held - field.room_mm[l]);
    water.excess_mm[l] = held - rising;
  }
  const V standing = rising;
  water.pond_mm = least(standing, V(field.pond_limit_mm));
  return standing - water.pond_mm;
}

/// FAO-56 Eq. 77 to 79, with the evaporation as it came out.
template <class V>
V surface_depletion(const FieldParameters& field, const DayForcing<V>& day, const V& entering_mm,
                    const DayFluxes<V>& out, const FieldWater<V>& water) {
  const V wetting_mm = entering_mm + day.irrigation_mm / water.wetted_fraction;
  const V dried_mm = select(V(0.0) < out.few, out.evaporation_mm / out.few, V(0.0));
  return least(V(field.tew_mm),
               greatest(V(0.0), water.surface_depletion_mm - wetting_mm) + dried_mm);
}

/// Hysteresis of the wetness words: 'waterlogged' from half the topsoil's room full, or ponded, to
/// under 0.3; 'at field capacity' from Dr of 1 mm to a topsoil deficit over 3 mm.
template <class V>
void remember_wetness(const FieldParameters& field, const StandDay& stand, FieldWater<V>& water) {
  const V fill = topsoil_fill(field, water);
  const V wet = greatest(fill, select(V(0.0) < water.pond_mm, V(1.0), V(0.0)));
  water.waterlogged = select(wet < V(0.3), V(0.0), select(wet < V(0.5), water.waterlogged, V(1.0)));
  const V deficit = topsoil_deficit_mm(water);
  const V stays = select(V(3.0) < deficit, V(0.0), water.at_capacity);
  water.at_capacity = select(V(1.0) < depletion_mm(stand, water), stays, V(1.0));
}

}  // namespace step

/// Steps a field by one day. Units mm. The balance closes:
/// water + irrigation = evaporation + transpiration + runoff + drainage + pipes + change held.
template <class V>
DayFluxes<V> field_step(const FieldParameters& field, const StandDay& stand,
                        const DayForcing<V>& day, FieldWater<V>& water) {
  DayFluxes<V> out;
  const V storm_mm = step::storm_runoff(stand, day, water);
  const V entering_mm = day.water_mm - storm_mm;
  water.wetted_fraction = step::wetted_fraction(day, water.wetted_fraction);
  const V offered_mm = entering_mm + day.irrigation_mm + water.pond_mm;
  out.bypass_mm = step::fill_through_cracks(field, offered_mm, water);
  V leaving_mm = step::hand_down(field, offered_mm - out.bypass_mm, water);
  const step::Demand<V> wanted = step::demand(field, stand, day, entering_mm, water, out);
  step::evaporate(stand, wanted, leaving_mm, water, out);
  out.drainage_mm = leaving_mm;
  out.pipe_drain_mm = step::drain_by_pipes(field, water);
  out.runoff_mm = storm_mm + step::back_up(field, water);
  water.surface_depletion_mm = step::surface_depletion(field, day, entering_mm, out, water);
  step::remember_wetness(field, stand, water);
  return out;
}

}  // namespace gley::model

#include "model/spreading/spreading_advice.hpp"

#include <algorithm>
#include <cmath>

#include "model/spreading/buffer_area.hpp"
#include "model/spreading/leaching.hpp"
#include "model/water/drains_run.hpp"

namespace gley::model {

namespace {

using Kind = SpreadingReasonKind;
using Reasons = std::vector<SpreadingReason>;

constexpr bool stops = true;
constexpr bool warns = false;

bool is_manure(MaterialKind kind) {
  return kind == MaterialKind::slurry || kind == MaterialKind::solid_manure;
}

/// Running drains carry a liquid off any soil, a solid only down the cracks of a clay. Labels of
/// sprays and the reach of slurry: our reading.
bool drains_hold(MaterialKind kind, const SpreadingField& field, const SpreadingLimits& limits) {
  const bool liquid = kind == MaterialKind::slurry || kind == MaterialKind::spray;
  return liquid || field.ground.clay_pct > limits.cracking_clay_pct;
}

/// What closes the ground to wheels and is not named already.
std::optional<GroundReason> closed_to_wheels(const SpreadingField& field,
                                             const GroundLimits& limits) {
  for (const GroundReason& reason : gate_reasons(field.ground, limits)) {
    const bool named = reason.kind == GroundReasonKind::ponded ||
                       reason.kind == GroundReasonKind::waterlogged ||
                       reason.kind == GroundReasonKind::snow;
    if (!named) return reason;
  }
  return {};
}

void judge_ground(MaterialKind kind, const SpreadingField& field, const SpreadingRules& rules,
                  Reasons& reasons) {
  const GroundState<double>& ground = field.ground;
  if (ground.waterlogged > 0.5)
    reasons.push_back(
        {.kind = Kind::waterlogged, .found = ground.pond_mm, .needed = 0.0, .holds = stops});
  if (ground.snow_mm >= rules.spreading.snow_mm)
    reasons.push_back({.kind = Kind::snow,
                       .found = ground.snow_mm,
                       .needed = rules.spreading.snow_mm,
                       .holds = stops});
  if (field.frozen) reasons.push_back({.kind = Kind::frozen, .holds = stops});
  if (field.drains_running)
    reasons.push_back(
        {.kind = Kind::drains_running, .holds = drains_hold(kind, field, rules.spreading)});
  if (const auto closed = closed_to_wheels(field, rules.ground))
    reasons.push_back({.kind = Kind::ground_closed, .holds = stops, .ground = closed});
}

double from_water_m(MaterialKind kind, const SpreadingLimits& limits) {
  return is_manure(kind) ? limits.manure_from_water_m : limits.fertiliser_from_water_m;
}

/// A buffer takes a part of the field, and holds only where it takes all of it.
SpreadingReason buffer(Kind kind, const Buffer& own, const SpreadingPlace& place,
                       std::optional<double> lost_ha) {
  const bool all = lost_ha && place.area_ha && *lost_ha >= *place.area_ha;
  return {.kind = kind,
          .found = own.distance_m,
          .needed = own.needed_m,
          .holds = all,
          .lost_ha = lost_ha};
}

void judge_place(MaterialKind kind, const SpreadingPlace& place, const SpreadingLimits& limits,
                 Reasons& reasons) {
  if (kind == MaterialKind::spray) {  // its label sets its own distances
    reasons.push_back({.kind = Kind::drift_not_judged, .holds = warns});
    return;
  }
  if (place.slope_pct > limits.slope_pct)
    reasons.push_back({.kind = Kind::too_steep,
                       .found = place.slope_pct,
                       .needed = limits.slope_pct,
                       .holds = stops});
  if (const double from_m = from_water_m(kind, limits);
      place.water_distance_m && *place.water_distance_m < from_m) {
    const Buffer water{*place.water_distance_m, from_m};
    reasons.push_back(
        buffer(Kind::too_near_to_water, water, place, strip_ha(water, place.water_edge_m)));
  }
  if (is_manure(kind) && place.spring_distance_m &&
      *place.spring_distance_m < limits.manure_from_spring_m) {
    const Buffer spring{*place.spring_distance_m, limits.manure_from_spring_m};
    reasons.push_back(buffer(Kind::too_near_to_spring, spring, place, piece_ha(spring)));
  }
  if (!place.water_distance_m) reasons.push_back({.kind = Kind::water_not_given, .holds = warns});
  if (is_manure(kind) && !place.spring_distance_m)
    reasons.push_back({.kind = Kind::spring_not_given, .holds = warns});
}

void judge_leaching(MaterialKind kind, const SpreadingField& field, const SpreadingOutlook& outlook,
                    const SpreadingLimits& limits, Reasons& reasons) {
  if (kind == MaterialKind::spray) return;
  const double share = share_leached_from_surface({.drainage_mm = outlook.drainage_7d_mm,
                                                   .depth_mm = limits.leaching_depth_mm,
                                                   .field_capacity = field.topsoil_field_capacity});
  if (share >= limits.leached_share)
    reasons.push_back({.kind = Kind::would_leach,
                       .found = share,
                       .needed = limits.leached_share,
                       .holds = stops});
}

void judge_outlook(MaterialKind kind, const SpreadingField& field, const SpreadingOutlook& outlook,
                   const SpreadingLimits& limits, Reasons& reasons) {
  if (outlook.chance_heavy_rain_48h >= limits.chance_of_heavy_rain)
    reasons.push_back({.kind = Kind::heavy_rain_coming,
                       .found = outlook.chance_heavy_rain_48h,
                       .needed = limits.chance_of_heavy_rain,
                       .holds = stops,
                       .in_hours = outlook.hours_to_heavy_rain});
  if (outlook.runoff_48h_mm > 0.0)
    reasons.push_back({.kind = Kind::runoff_coming,
                       .found = outlook.runoff_48h_mm,
                       .needed = limits.runoff_48h_mm,
                       .holds = outlook.runoff_48h_mm >= limits.runoff_48h_mm});
  if (!field.drains_running && outlook.drainage_48h_mm > limits.drainage_48h_mm)
    reasons.push_back({.kind = Kind::drainage_coming,
                       .found = outlook.drainage_48h_mm,
                       .needed = limits.drainage_48h_mm,
                       .holds = drains_hold(kind, field, limits)});
  judge_leaching(kind, field, outlook, limits, reasons);
}

bool holds(const SpreadingReason& reason) {
  return reason.holds;
}

/// A number that is none would pass every threshold unseen.
bool all_known(const SpreadingField& field, const SpreadingOutlook& outlook) {
  const double numbers[] = {field.topsoil_field_capacity,
                            field.place.slope_pct,
                            field.place.water_distance_m.value_or(0.0),
                            field.place.spring_distance_m.value_or(0.0),
                            outlook.drainage_48h_mm,
                            outlook.runoff_48h_mm,
                            outlook.drainage_7d_mm,
                            outlook.chance_heavy_rain_48h,
                            outlook.hours_to_heavy_rain.value_or(0.0)};
  for (const double number : numbers)
    if (!std::isfinite(number)) return false;
  return is_known(field.ground);
}

}  // namespace

SpreadingField spreading_field(const Field& field, const FieldDay& day,
                               const GroundState<double>& ground, const SpreadingPlace& place) {
  return {.ground = ground,
          .topsoil_field_capacity = field.parameters.soil.horizon[0].field_capacity,
          .frozen = day.ground.frozen || day.ground.sealed,
          .drains_running = drains_run(day),
          .place = place};
}

SpreadingAdvice advise(MaterialKind kind, const SpreadingField& field,
                       const std::optional<SpreadingOutlook>& outlook,
                       const SpreadingRules& rules) {
  SpreadingAdvice out;
  if (!all_known(field, outlook.value_or(SpreadingOutlook{}))) {
    out.reasons.push_back({.kind = Kind::numbers_missing});
    return out;
  }
  constexpr std::size_t usual_reasons = 8;  // room at once: the outlook asks this of many days
  out.reasons.reserve(usual_reasons);
  judge_ground(kind, field, rules, out.reasons);
  if (outlook) judge_outlook(kind, field, *outlook, rules.spreading, out.reasons);
  judge_place(kind, field.place, rules.spreading, out.reasons);
  std::stable_partition(out.reasons.begin(), out.reasons.end(), holds);
  if (!outlook) {
    out.reasons.insert(out.reasons.begin(), {.kind = Kind::no_forecast});
    return out;
  }
  const bool held = std::any_of(out.reasons.begin(), out.reasons.end(), holds);
  out.advice = held ? Advice::hold : Advice::clear;
  if (!held)
    out.reasons.insert(out.reasons.begin(), {.kind = Kind::nothing_against,
                                             .found = outlook->chance_heavy_rain_48h,
                                             .needed = rules.spreading.chance_of_heavy_rain});
  return out;
}

SpreadingAdvice advice_between(const TwoAdvices& two) {
  if (two.said.advice != Advice::clear || two.wetter.advice != Advice::hold) return two.said;
  SpreadingAdvice out = two.wetter;
  out.reasons.insert(
      out.reasons.begin(),
      {.kind = SpreadingReasonKind::rain_not_known, .found = two.wetter_mm, .holds = true});
  return out;
}

}  // namespace gley::model

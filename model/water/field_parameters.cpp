#include "model/water/field_parameters.hpp"

#include <limits>

#include "model/crop/coefficients.hpp"
#include "model/numeric/elementary.hpp"

namespace gley::model {

namespace {

constexpr double unlimited = std::numeric_limits<double>::infinity();
constexpr double surface_layer_m = 0.10;  // Ze of FAO-56 Eq. 73
constexpr double hours_a_day = 24.0;

/// The layer whose lower face is nearest to a depth: a slow layer begins between two of ours.
int layer_ending_near(const SoilProfile& soil, double depth_mm) {
  int nearest = soil.layers - 1;
  double least_gap = unlimited;
  double bottom = 0.0;
  for (int l = 0; l < soil.layers; ++l) {
    bottom += soil.thickness_mm[l];
    const double gap = bottom < depth_mm ? depth_mm - bottom : bottom - depth_mm;
    if (gap < least_gap) {
      least_gap = gap;
      nearest = l;
    }
  }
  return nearest;
}

void set_storage(FieldParameters& p) {
  for (int l = 0; l < max_layers; ++l) {
    const Horizon& h = p.soil.horizon[l];
    p.available_mm[l] = (h.field_capacity - h.wilting_point) * p.soil.thickness_mm[l];
    p.room_mm[l] = (h.saturation - h.field_capacity) * p.soil.thickness_mm[l];
    if (l >= topsoil_layers) continue;
    p.topsoil_available_mm += p.available_mm[l];
    p.topsoil_room_mm += p.room_mm[l];
  }
}

void let_all_water_through(FieldParameters& p) {
  p.release_share.fill(1.0);
  p.pass_limit_mm.fill(unlimited);
  p.pond_limit_mm = unlimited;
}

void set_flow(FieldParameters& p, const FieldDescription& field) {
  for (int l = 0; l < max_layers; ++l) {
    const double conductivity = p.soil.horizon[l].saturated_conductivity_mm_h;
    const bool real = l < p.soil.layers;
    p.release_share[l] = real ? daily_release_share(p.room_mm[l] / conductivity) : 1.0;
    p.pass_limit_mm[l] = real ? conductivity * hours_a_day : unlimited;
  }
  const Outlet outlet = outlet_of(field.drainage);
  const std::optional<double> slow_depth_mm =
      field.slow_layer_depth_mm ? field.slow_layer_depth_mm : outlet.slow_layer_depth_mm;
  const int slowest = slow_depth_mm ? layer_ending_near(p.soil, *slow_depth_mm) : p.soil.layers - 1;
  p.pass_limit_mm[slowest] = least(p.pass_limit_mm[slowest], outlet.rate_mm_d);
  if (slowest + 1 < p.soil.layers) p.slow_layer = slowest;
  if (!field.pipes) return;
  p.pipe_rate_mm = field.pipes->rate_mm_d;
  p.piped_layers = slowest + 1;
}

/// Our choice.
double pond_limit_mm(double slope_pct) {
  return slope_pct > 5.0 ? 2.0 : 5.0;
}

}  // namespace

double daily_release_share(double travel_time_h) {
  if (travel_time_h <= 0.0) return 1.0;
  return 1.0 - exponential(-hours_a_day / travel_time_h);
}

double crack_share(double clay_pct) {
  return held_between(0.0, (clay_pct - 15.0) / 45.0, 1.0) / 3.0;
}

FieldParameters field_parameters(const FieldDescription& field) {
  FieldParameters p;
  p.soil = field.soil;
  set_storage(p);
  const Horizon& top = field.soil.horizon[0];
  p.tew_mm = field.tew_mm ? *field.tew_mm
                          : total_evaporable_water_mm({.field_capacity = top.field_capacity,
                                                       .wilting_point = top.wilting_point,
                                                       .depth_m = surface_layer_m});
  p.rew_mm = least(field.rew_mm, p.tew_mm);
  if (field.textbook) {
    let_all_water_through(p);
    return p;
  }
  set_flow(p, field);
  p.pond_limit_mm = pond_limit_mm(field.slope_pct);
  p.crack_share = crack_share(field.soil.clay_pct);
  return p;
}

}  // namespace gley::model

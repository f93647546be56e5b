#include "model/soil/profile.hpp"

#include "model/numeric/elementary.hpp"
#include "model/soil/retention.hpp"

namespace gley::model {

double SoilProfile::depth_mm() const {
  double depth = 0.0;
  for (const double thickness : thickness_mm) depth += thickness;
  return depth;
}

SoilProfile profile_of(const Horizon& topsoil, const Horizon& subsoil, double clay_pct,
                       double depth_mm) {
  SoilProfile profile;
  profile.clay_pct = clay_pct;
  profile.layers = 0;
  double above = 0.0;
  for (int l = 0; l < max_layers; ++l) {
    const bool last = l == max_layers - 1;
    const double left = depth_mm - above;
    const double thickness = greatest(0.0, last ? left : least(default_thickness_mm[l], left));
    profile.thickness_mm[l] = thickness;
    profile.horizon[l] = above < topsoil_mm ? topsoil : subsoil;
    if (thickness > 0.0) profile.layers = l + 1;
    above += thickness;
  }
  return profile;
}

Horizon subsoil_under(const Horizon& topsoil) {
  Horizon subsoil = topsoil;
  subsoil.field_capacity =
      topsoil.wilting_point + 0.8 * (topsoil.field_capacity - topsoil.wilting_point);
  // Density rises 5 %, so the solids fill 1.05 of what they filled.
  const double packed = 1.0 - 1.05 * (1.0 - topsoil.saturation);
  subsoil.saturation = greatest(packed, subsoil.field_capacity + 0.01);
  subsoil.saturated_conductivity_mm_h = conductivity_from_contents_mm_h(
      {subsoil.wilting_point, subsoil.field_capacity, subsoil.saturation});
  return subsoil;
}

ByLayer<double> thickness_above(const SoilProfile& profile, double depth_mm) {
  ByLayer<double> above{};
  double top = 0.0;
  for (int l = 0; l < max_layers; ++l) {
    above[l] = held_between(0.0, depth_mm - top, profile.thickness_mm[l]);
    top += profile.thickness_mm[l];
  }
  return above;
}

}  // namespace gley::model

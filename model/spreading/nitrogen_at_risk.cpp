#include "model/spreading/nitrogen_at_risk.hpp"

#include "model/numeric/elementary.hpp"
#include "model/spreading/leaching.hpp"

namespace gley::model {

double share_lost_to_runoff(double runoff_mm) noexcept {
  return runoff_mm <= 0.0 ? 0.0 : 1.0 - exponential(-runoff_mm / runoff_layer_water_mm);
}

NitrogenAtRisk nitrogen_at_risk(const Dressing& dressing, const SpreadingOutlook& outlook,
                                const SpreadingLimits& limits) {
  NitrogenAtRisk out{.applied_kg_ha = dressing.n_kg_ha};
  out.runoff_kg_ha = dressing.n_kg_ha * share_lost_to_runoff(outlook.runoff_48h_mm);
  const double share =
      share_leached_from_surface({.drainage_mm = outlook.drainage_7d_mm,
                                  .depth_mm = limits.leaching_depth_mm,
                                  .field_capacity = dressing.topsoil_field_capacity});
  out.leached_kg_ha = (dressing.n_kg_ha - out.runoff_kg_ha) * share;
  return out;
}

}  // namespace gley::model

#pragma once
#include "model/spreading/spreading_advice.hpp"

namespace gley::model {

/// Soil layer that a dressing on the surface mixes with in runoff, and the water it holds full.
/// About 10 mm: Sharpley (1985), Soil Sci. Soc. Am. J. 49:1010-1015 (from memory); its pores, 45 %,
/// our choice.
inline constexpr double runoff_layer_water_mm = 4.5;

/// Share of a dressing on the surface that runoff would carry off, 1 - exp(-Q/water of the layer):
/// at most, as if none had been washed in before. Form: our choice, as Burns's for leaching. Far
/// over what springs cost sloping silage swards on slow soils, under 10 % of the nitrogen:
/// Scholefield and Stone (1995), Agric. Ecosyst. Environ. 55:181-191 (abstract).
[[nodiscard]] double share_lost_to_runoff(double runoff_mm) noexcept;

/// Nitrogen of a dressing, kg/ha.
struct NitrogenAtRisk {
  double applied_kg_ha = 0.0;
  double leached_kg_ha = 0.0;  ///< below 300 mm within 7 days
  double runoff_kg_ha = 0.0;   ///< of what is left, within 48 h

  [[nodiscard]] double total_kg_ha() const { return leached_kg_ha + runoff_kg_ha; }
};

struct Dressing {
  double n_kg_ha = 0.0;
  double topsoil_field_capacity = 0.0;
};

/// What of a dressing the outlook would cost. All of it counts as soluble: true of mineral
/// fertiliser, too much for manure.
[[nodiscard]] NitrogenAtRisk nitrogen_at_risk(const Dressing& dressing,
                                              const SpreadingOutlook& outlook,
                                              const SpreadingLimits& limits);

}  // namespace gley::model

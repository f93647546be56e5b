#pragma once
#include "model/soil/profile.hpp"

namespace gley::model {

/// The water of a field's soil at the end of a day. V is double, or a vector of fields of one
/// class; each lane is one field, so no sum is ever taken across lanes.
template <class V>
struct FieldWater {
  ByLayer<V> excess_mm{};  ///< water over that at field capacity, by layer; negative: a deficit
  V surface_depletion_mm{0.0};  ///< De of FAO-56, of the exposed and wetted surface
  V pond_mm{0.0};               ///< standing on the ground
  V wetted_fraction{1.0};       ///< fw of FAO-56, left by the last wetting
  V at_capacity{0.0};           ///< 1 while the wetness 'at field capacity' lasts, else 0
  V waterlogged{0.0};           ///< 1 while the wetness 'waterlogged' lasts, else 0

  friend bool operator==(const FieldWater&, const FieldWater&) = default;
};

/// What a day brings to the ground of a field.
template <class V>
struct DayForcing {
  V water_mm{0.0};  ///< rain and melt
  V irrigation_mm{0.0};
  V et0_mm{0.0};                      ///< 0 under snow
  V sealed{0.0};                      ///< 1 where frost has sealed the ground, else 0
  V irrigation_wetted_fraction{1.0};  ///< fw of the irrigation system, FAO-56 Table 20
};

/// What moved in a day. Amounts mm.
template <class V>
struct DayFluxes {
  V few{};
  V kr{};
  V ke{};
  V ks{};
  V depletion_fraction{};          ///< p of the day
  V surface_depletion_start_mm{};  ///< De after early water
  V depletion_start_mm{};          ///< Dr after early water
  V evaporation_mm{};
  V transpiration_mm{};
  V runoff_mm{};
  V drainage_mm{};  ///< percolation below the profile
  V pipe_drain_mm{};
  V bypass_mm{};  ///< rain that fell past the topsoil through cracks
};

}  // namespace gley::model

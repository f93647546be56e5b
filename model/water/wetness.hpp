#pragma once
#include <string_view>

#include "model/water/field_step.hpp"

namespace gley::model {

/// How wet a field is, in the words of the trade. Frost and snow stand beside it, as flags.
enum class Wetness { short_of_water, moist, near_field_capacity, at_field_capacity, waterlogged };

[[nodiscard]] constexpr std::string_view to_word(Wetness wetness) {
  switch (wetness) {
    case Wetness::short_of_water:
      return "short of water";
    case Wetness::moist:
      return "moist";
    case Wetness::near_field_capacity:
      return "near field capacity";
    case Wetness::at_field_capacity:
      return "at field capacity";
    case Wetness::waterlogged:
      return "waterlogged";
  }
  return {};
}

/// Whether the soil holds all the water it can, or more.
[[nodiscard]] constexpr bool is_at_capacity(Wetness wetness) {
  return wetness == Wetness::at_field_capacity || wetness == Wetness::waterlogged;
}

/// The first that holds, from the wettest. depletion_fraction: p of the day.
[[nodiscard]] inline Wetness wetness_of(const StandDay& stand, const FieldWater<double>& water,
                                        double depletion_fraction) {
  constexpr double near_capacity_mm = 5.0;
  if (water.waterlogged > 0.5) return Wetness::waterlogged;
  if (water.at_capacity > 0.5) return Wetness::at_field_capacity;
  if (topsoil_deficit_mm(water) <= near_capacity_mm) return Wetness::near_field_capacity;
  // Where nothing grows, nothing is short of water, however dry the ground is.
  const bool grows = 0.0 < stand.kcb;
  const RootZone<double> zone{.depletion_mm = depletion_mm(stand, water),
                              .total_available_mm = stand.total_available_mm,
                              .depletion_fraction = depletion_fraction};
  if (grows && zone.depletion_mm > readily_available_water_mm(zone)) return Wetness::short_of_water;
  return Wetness::moist;
}

}  // namespace gley::model

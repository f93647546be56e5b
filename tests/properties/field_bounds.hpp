#pragma once
#include <cmath>

#include "model/water/field_day.hpp"

/// What holds of every day of every field.
namespace gley::model {

/// What came in, less what left and what the field holds more than before, mm: 0 but for rounding.
[[nodiscard]] inline double unaccounted_mm(const FieldParameters& field, const FieldState& before,
                                           const FieldDay& day) {
  const DayFluxes<double>& out = day.fluxes;
  return day.rain_mm + day.irrigation_mm - out.evaporation_mm - out.transpiration_mm -
         out.runoff_mm - out.drainage_mm - out.pipe_drain_mm -
         (stored_mm(field, day.evening) - stored_mm(field, before));
}

/// What the day has that no field may have, in a word; empty if nothing.
[[nodiscard]] inline const char* out_of_bounds(const FieldParameters& field, const FieldDay& day) {
  const FieldWater<double>& water = day.evening.water;
  for (int l = 0; l < max_layers; ++l)
    if (!(water.excess_mm[l] >= -field.available_mm[l] - 1e-9 &&
          water.excess_mm[l] <= field.room_mm[l] + 1e-9))
      return "a layer's water";
  if (!(water.pond_mm >= 0.0 && water.pond_mm <= field.pond_limit_mm)) return "pond";
  if (!(water.surface_depletion_mm >= 0.0 && water.surface_depletion_mm <= field.tew_mm))
    return "surface depletion";
  if (!(day.fluxes.evaporation_mm >= -1e-12)) return "evaporation";
  if (!(day.fluxes.transpiration_mm >= -1e-12)) return "transpiration";
  if (!(day.fluxes.runoff_mm >= 0.0)) return "runoff";
  if (!(day.fluxes.drainage_mm >= -1e-12)) return "drainage";
  if (!(day.fluxes.pipe_drain_mm >= 0.0)) return "drainage by pipes";
  for (const double number :
       {day.depletion_mm, day.surplus_mm, day.suction_topsoil_kpa, day.suction_subsoil_kpa})
    if (!std::isfinite(number)) return "a number that is none";
  return "";
}

}  // namespace gley::model

#include "model/ground/ground_state.hpp"

#include <cmath>

namespace gley::model {

GroundState<double> ground_state(const Field& field, const FieldDay& day,
                                 const GroundBefore& before) {
  const SoilProfile& soil = field.parameters.soil;
  const FieldWater<double>& water = day.evening.water;
  const LayerRange subsoil = subsoil_of(soil);
  const Horizon& horizon = soil.horizon[subsoil.first];
  const bool frozen = day.ground.frozen;
  const bool sealed = day.ground.sealed;
  GroundState<double> out;
  out.suction_topsoil_kpa = day.suction_topsoil_kpa;
  out.suction_subsoil_kpa = day.suction_subsoil_kpa;
  out.subsoil_saturation = theta_of(soil, water, subsoil) / horizon.saturation;
  out.topsoil_deficit_mm = day.topsoil_deficit_mm;
  out.rain_24h_mm = before.rain_24h_mm.value_or(day.rain_mm);
  out.snow_mm = day.evening.snow.snow_mm;
  out.pond_mm = water.pond_mm;
  out.waterlogged = water.pond_mm > 0.0 ? 1.0 : water.waterlogged;
  out.thaw = !frozen && (before.frozen || sealed) ? 1.0 : 0.0;
  out.deep_frost = frozen && sealed ? 1.0 : 0.0;
  out.subsoil_saturation_at_capacity = horizon.field_capacity / horizon.saturation;
  out.clay_pct = soil.clay_pct;
  return out;
}

bool is_known(const GroundState<double>& ground) {
  const double numbers[] = {ground.suction_topsoil_kpa,
                            ground.suction_subsoil_kpa,
                            ground.subsoil_saturation,
                            ground.topsoil_deficit_mm,
                            ground.rain_24h_mm,
                            ground.snow_mm,
                            ground.pond_mm,
                            ground.waterlogged,
                            ground.thaw,
                            ground.deep_frost,
                            ground.subsoil_saturation_at_capacity,
                            ground.clay_pct};
  for (const double number : numbers)
    if (!std::isfinite(number)) return false;
  return true;
}

}  // namespace gley::model

#pragma once
#include <optional>

#include "model/water/field_day.hpp"

namespace gley::model {

/// What of a field and its day decides whether it carries wheels. V is double, or a vector of
/// fields of one class, which share the plain doubles.
template <class V>
struct GroundState {
  V suction_topsoil_kpa{0.0};
  V suction_subsoil_kpa{0.0};
  V subsoil_saturation{0.0};  ///< water content of the subsoil over that at saturation
  V topsoil_deficit_mm{0.0};
  V rain_24h_mm{0.0};
  V snow_mm{0.0};
  V pond_mm{0.0};
  V waterlogged{0.0};  ///< 1 or 0; so also where water stands on the ground
  V thaw{0.0};         ///< 1 on the first day without frost after one with it, else 0
  V deep_frost{0.0};   ///< 1 while frost seals the ground and does not give, else 0
  double subsoil_saturation_at_capacity = 0.0;
  double clay_pct = 0.0;
};

/// What one day's numbers do not tell.
struct GroundBefore {
  bool frozen = false;                     ///< the day before counted as frozen
  std::optional<double> rain_24h_mm = {};  ///< of the last 24 hours; absent: the day's rain
};

/// The ground on the evening of a day. Where the soil ends with the topsoil, its subsoil is the
/// topsoil. Frost that seals the ground (frost index over 83) carries, while the day itself is
/// frozen; while it gives, the ground thaws.
[[nodiscard]] GroundState<double> ground_state(const Field& field, const FieldDay& day,
                                               const GroundBefore& before);

/// Whether every number of it is one.
[[nodiscard]] bool is_known(const GroundState<double>& ground);

}  // namespace gley::model

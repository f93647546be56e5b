#pragma once
#include "model/crop/stand.hpp"
#include "model/water/field_parameters.hpp"

namespace gley::model {

/// What all fields of a class (soil, drains, stand) share on a day, as the field step reads it:
/// worked out once for all of them, so that the step divides by nothing that is the same for all.
struct ClassDay {
  // Storm runoff
  bool sheds_storms = false;
  double storage_dry_mm = 0.0;
  double storage_wet_mm = 0.0;

  // Surface
  double exposed = 0.0;      ///< fraction of the ground not under vegetation
  double per_exposed = 0.0;  ///< 1 / exposed, 0 where nothing is exposed
  double rew_mm = 0.0;       ///< readily evaporable water
  double tew_mm = 0.0;       ///< totally evaporable water

  // Demand
  double kcb = 0.0;
  double kc_max = 0.0;
  double table_p = 0.0;
  double total_available_mm = 0.0;
  ByLayer<double> rooted_available_mm{};
  ByLayer<double> reach_offset_mm{};  ///< excess + this, if positive, is in the roots' reach
  /// Of roots, by mm of available water: what roots take of a layer goes by their share and by how
  /// full it is, not by how thick.
  ByLayer<double> uptake_weight{};
  double largest_uptake_weight = 0.0;

  // Water on its way down
  double crack_share = 0.0;
  double crack_share_per_mm = 0.0;  ///< of topsoil deficit, up to crack_share
  ByLayer<double> release_share{};
  ByLayer<double> pass_limit_mm{};
  int slow_layer = no_slow_layer;
  double pipe_rate_mm = 0.0;
  int piped_layers = 0;  ///< from the top

  // Water that finds no way down
  ByLayer<double> room_mm{};
  double pond_limit_mm = 0.0;
  double topsoil_room_mm = 0.0;
};

[[nodiscard]] ClassDay class_day(const FieldParameters& field, const StandDay& stand);

}  // namespace gley::model

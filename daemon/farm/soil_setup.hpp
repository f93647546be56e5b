#pragma once
#include "daemon/farm/farm_config.hpp"
#include "model/soil/profile.hpp"

namespace gley::daemon {

/// A field's soil with what its class says where the owner gives no number of their own.
struct FieldSoil {
  model::Horizon topsoil;
  model::Horizon subsoil;
  double clay_pct = 0.0;
  double rew_mm = 0.0;
  char hydrologic_group = 'C';  ///< for runoff by curve number, A to D
};

/// A named class has the reference's subsoil; a soil given by numbers, and a textbook field, is the
/// same all the way down.
[[nodiscard]] FieldSoil soil_of(const FieldConfig& config);

}  // namespace gley::daemon

#pragma once
#include <optional>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/crop_config.hpp"

namespace gley::daemon {

/// Where a named crop stands: [[field.crop]] with `crop`, or crop = { ... } with `name`.
struct NamedCrop {
  const char* name_key = "crop";
  std::optional<double> soil_depth_mm = {};  ///< of the field, for its roots
};

/// A named crop with what is written beside its name, its dates checked.
[[nodiscard]] CropSowing read_sowing(const TableReader& table, const NamedCrop& form);

/// What is known better of a crop than its row, if it has one, says: all but dates of sowing.
[[nodiscard]] CropOwn read_own(const TableReader& table, const CropRow* row);

/// Cuts belong to swards.
void check_cuts(const TableReader& table, const CropRow& row);

}  // namespace gley::daemon

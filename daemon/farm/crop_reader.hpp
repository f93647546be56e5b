#pragma once
#include <optional>

#include "daemon/farm/crop_config.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "daemon/farm/toml_reader.hpp"

namespace gley::daemon {

/// Where a named crop stands: [[field.crop]] with `crop`, or crop = { ... } with `name`.
struct NamedCrop {
  const char* name_key = "crop";
  std::optional<double> soil_depth_mm = {};  ///< of the field, for its roots
};

/// The row of a name; a problem and null if there is none.
[[nodiscard]] const CropRow* known_crop(const TableReader& table, const char* key,
                                        const std::string& name);

/// A named crop with what is written beside its name, its dates checked.
[[nodiscard]] CropSowing read_sowing(const TableReader& table, const NamedCrop& form);

/// What is known better of a crop than its row, if it has one, says: all but dates of sowing.
[[nodiscard]] CropOwn read_own(const TableReader& table, const CropRow* row);

/// Cuts belong to swards.
void check_cuts(const TableReader& table, const CropRow& row);

}  // namespace gley::daemon

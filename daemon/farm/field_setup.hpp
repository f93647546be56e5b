#pragma once
#include <string>

#include "daemon/farm/farm_config.hpp"
#include "model/spreading/spreading_advice.hpp"
#include "model/water/field_day.hpp"

namespace gley::daemon {

/// The model's field for a field of the configuration, with the reference tables for all that the
/// owner leaves open. The configuration has been checked: every name in it is known.
[[nodiscard]] model::Field field_of(const FieldConfig& config);

/// How the field lies, as spreading asks.
[[nodiscard]] model::SpreadingPlace spreading_place_of(const FieldConfig& config);

/// The soil as people say it: "clay loam", or its numbers.
[[nodiscard]] std::string soil_in_words(const SoilConfig& soil);

}  // namespace gley::daemon

#pragma once
#include <string>

#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// The outlines of the fields that have one, as a GeoJSON FeatureCollection (RFC 7946) whose
/// features carry the fields' ids.
[[nodiscard]] std::string boundaries_json(const FarmConfig& farm);

}  // namespace gley::daemon

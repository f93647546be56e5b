#pragma once
#include <string_view>

#include "model/soil/retention.hpp"

namespace gley::model {

/// The British texture class of a soil from its sand and clay (sand limit 60 um).
/// Source: boundaries of the Soil Survey of England and Wales triangle, eleven classes.
/// Returns a class name as config/soils.toml spells it.
[[nodiscard]] std::string_view texture_class(const Texture& british);

}  // namespace gley::model

#pragma once
#include "daemon/farm/farm_config.hpp"
#include "model/crop/calendar.hpp"

namespace gley::daemon {

/// The field's crops over the years. A named annual crop is sown on its usual date every year;
/// stubble lies between. hydrologic_group: A to D, by which the ground sheds storms.
[[nodiscard]] model::CropCalendar crops_of(const FieldConfig& config, char hydrologic_group);

/// Deepest roots the field will ever carry, mm.
[[nodiscard]] double deepest_roots_mm(const FieldConfig& config);

}  // namespace gley::daemon

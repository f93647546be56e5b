#pragma once
#include <chrono>

#include "daemon/farm/farm_config.hpp"
#include "model/crop/calendar.hpp"

namespace gley::daemon {

/// What of the ground decides how a crop sheds storms.
struct CropGround {
  char hydrologic_group = 'C';
  double slope_pct = 2.0;
};

/// The field's crops over the years. A named annual crop is sown on its usual date every year;
/// stubble lies between.
[[nodiscard]] model::CropCalendar crops_of(const FieldConfig& config, const CropGround& ground);

/// Deepest roots the field will ever carry, mm.
[[nodiscard]] double deepest_roots_mm(const FieldConfig& config);

}  // namespace gley::daemon

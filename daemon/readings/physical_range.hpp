#pragma once
#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// The least and the most a reading can be, both allowed, in the model's unit.
struct PhysicalRange {
  double least = 0.0;
  double most = 0.0;
  [[nodiscard]] bool holds(double value) const { return value >= least && value <= most; }
};

/// What the quantity can physically be. Outside it the reading is a fault of the sensor or of its
/// mapping, not weather.
[[nodiscard]] PhysicalRange physical_range(Quantity quantity, ReadingForm form);

}  // namespace gley::daemon

#include "model/soil/suction.hpp"

#include "model/numeric/elementary.hpp"
#include "model/soil/retention.hpp"

namespace gley::model {

double suction_kpa(const Horizon& soil, double theta) {
  if (theta >= soil.field_capacity) {
    const double filled = (theta - soil.field_capacity) / (soil.saturation - soil.field_capacity);
    return suction_at_field_capacity_kpa * greatest(0.0, 1.0 - filled);
  }
  return suction_at_field_capacity_kpa * power(soil.field_capacity / theta, soil.retention_b);
}

}  // namespace gley::model

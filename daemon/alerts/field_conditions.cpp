#include "daemon/alerts/field_conditions.hpp"

namespace gley::daemon {

bool holds_for(AlertEvent event, const model::FieldDay& day) {
  switch (event) {
    case AlertEvent::at_field_capacity:
      return day.evening.water.at_capacity > 0.5 && !day.flags.has(model::DayFlag::start_assumed);
    case AlertEvent::rain_expected:
      return day.evening.water.at_capacity <= 0.5 && !day.flags.has(model::DayFlag::start_assumed);
    case AlertEvent::waterlogged:
      return day.wetness == model::Wetness::waterlogged;
    default:
      return false;
  }
}

}  // namespace gley::daemon

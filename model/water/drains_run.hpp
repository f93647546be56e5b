#pragma once
#include "model/water/field_day.hpp"

namespace gley::model {

/// Water leaving in a day from which drains count as running, mm. Our choice.
inline constexpr double drains_run_from_mm = 0.2;

/// Whether water leaves by pipes or, where there are none, below the roots.
[[nodiscard]] inline bool drains_run(const FieldDay& day) {
  return day.fluxes.pipe_drain_mm > drains_run_from_mm ||
         day.fluxes.drainage_mm > drains_run_from_mm;
}

}  // namespace gley::model

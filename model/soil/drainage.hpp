#pragma once
#include <optional>

namespace gley::model {

/// How readily a soil passes the water it cannot hold.
enum class DrainageClass { free, moderate, slow, poor };

/// Most water that leaves a profile by its slowest layer, mm/day, and how deep that layer lies.
/// Rates: moderate 10 and poor 0.5 after Schulte et al. (2005), Irish J. Agric. Food Res. 44:95-110
/// (constants from memory); free 50 and slow 2 are our choice between and beside them.
/// Depths: our choice; a poor soil has its slow layer just under the topsoil, a slow one under the
/// subsoil that is worked by roots; otherwise the base of the profile is the outlet.
struct Outlet {
  double rate_mm_d = 0.0;
  std::optional<double> slow_layer_depth_mm;
};

[[nodiscard]] constexpr Outlet outlet_of(DrainageClass drainage) {
  switch (drainage) {
    case DrainageClass::free:
      return {.rate_mm_d = 50.0, .slow_layer_depth_mm = {}};
    case DrainageClass::moderate:
      return {.rate_mm_d = 10.0, .slow_layer_depth_mm = {}};
    case DrainageClass::slow:
      return {.rate_mm_d = 2.0, .slow_layer_depth_mm = 700.0};
    case DrainageClass::poor:
      return {.rate_mm_d = 0.5, .slow_layer_depth_mm = 300.0};
  }
  return {};
}

/// Effective rate of working pipe drains, mm/day: field drains in maritime lowland are designed for
/// 10 to 15 mm/day (from memory), yet a clay delivers about half of that or less to them
/// (Hooghoudt's equation with Moody's equivalent depth gives 0.7 to 7 mm/day); 5 is our choice.
inline constexpr double default_pipe_rate_mm_d = 5.0;

}  // namespace gley::model

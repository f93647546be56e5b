#pragma once
#include <optional>
#include <string>
#include <variant>

/// What the configuration says of a field's soil.
namespace gley::daemon {

/// What the owner knows better of a soil than its class or texture says.
struct SoilOwn {
  std::optional<double> field_capacity;  ///< m3/m3, of the topsoil
  std::optional<double> wilting_point;
  std::optional<double> saturation;
  std::optional<double> clay_pct;
  std::optional<double> conductivity_mm_h;  ///< saturated, all the way down
  std::optional<double> retention_b;
  std::optional<std::string> hydrologic_group;  ///< A to D
};

struct SoilByClass {
  std::string name;
  SoilOwn own = {};
};
struct SoilByTexture {
  double sand_pct = 0.0;
  double clay_pct = 0.0;
  double organic_pct = 3.0;
  SoilOwn own = {};
};
struct SoilByNumbers {
  double field_capacity = 0.0;
  double wilting_point = 0.0;
  double saturation = 0.0;
  std::optional<double> clay_pct;
  SoilOwn own = {};
};
using SoilConfig = std::variant<SoilByClass, SoilByTexture, SoilByNumbers>;

}  // namespace gley::daemon

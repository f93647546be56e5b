#include "model/soil/texture_class.hpp"

namespace gley::model {

namespace {

double silt_pct(const Texture& soil) {
  return 100.0 - soil.sand_pct - soil.clay_pct;
}

std::string_view class_of_light_soil(const Texture& soil) {
  if (soil.sand_pct < 20.0) return "silt loam";
  if (soil.sand_pct < 50.0) return "sandy silt loam";
  if (silt_pct(soil) + 1.5 * soil.clay_pct < 15.0) return "sand";
  if (silt_pct(soil) + 2.0 * soil.clay_pct < 30.0) return "loamy sand";
  return "sandy loam";
}

}  // namespace

std::string_view texture_class(const Texture& british) {
  const double sand_pct = british.sand_pct;
  const double clay_pct = british.clay_pct;
  if (clay_pct >= 30.0 && sand_pct >= 45.0 && silt_pct(british) <= 20.0) return "sandy clay";
  if (clay_pct >= 35.0) return silt_pct(british) >= 45.0 ? "silty clay" : "clay";
  if (clay_pct < 18.0) return class_of_light_soil(british);
  if (sand_pct >= 50.0) return "sandy clay loam";
  return sand_pct >= 20.0 ? "clay loam" : "silty clay loam";
}

}  // namespace gley::model

#include "model/soil/texture_class.hpp"

namespace gley::model {

namespace {

std::string_view class_of_light_soil(double sand_pct, double silt_pct, double clay_pct) {
  if (sand_pct < 20.0) return "silt loam";
  if (sand_pct < 50.0) return "sandy silt loam";
  if (silt_pct + 1.5 * clay_pct < 15.0) return "sand";
  if (silt_pct + 2.0 * clay_pct < 30.0) return "loamy sand";
  return "sandy loam";
}

}  // namespace

std::string_view texture_class(double sand_pct, double clay_pct) {
  const double silt_pct = 100.0 - sand_pct - clay_pct;
  if (clay_pct >= 30.0 && sand_pct >= 45.0 && silt_pct <= 20.0) return "sandy clay";
  if (clay_pct >= 35.0) return silt_pct >= 45.0 ? "silty clay" : "clay";
  if (clay_pct < 18.0) return class_of_light_soil(sand_pct, silt_pct, clay_pct);
  if (sand_pct >= 50.0) return "sandy clay loam";
  return sand_pct >= 20.0 ? "clay loam" : "silty clay loam";
}

}  // namespace gley::model

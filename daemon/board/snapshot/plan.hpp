#pragma once
#include <string>
#include <vector>

/// The farm's shape as it is drawn: metres east and south of the plan's north-west corner.
namespace gley::daemon {

struct PlanPoint {
  double x_m = 0.0;
  double y_m = 0.0;
};
using PlanLine = std::vector<PlanPoint>;

struct PlannedField {
  std::string id;
  std::vector<PlanLine> rings;  ///< outlines and holes, each closed
  PlanPoint label;
  double width_m = 0.0;
  double area_ha = 0.0;
  double buffer_ha = 0.0;  ///< of it, in buffers to water
};

struct PlannedWater {
  std::string name;
  std::vector<PlanLine> lines;
  double buffer_m = 0.0;
};

struct PlannedSpring {
  std::string name;
  PlanPoint at;
  double buffer_m = 0.0;
};

struct PlanView {
  double width_m = 0.0;
  double height_m = 0.0;
  std::vector<PlannedField> fields;
  std::vector<PlannedWater> watercourses;
  std::vector<PlannedSpring> springs;
};

}  // namespace gley::daemon

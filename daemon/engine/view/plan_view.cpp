#include "daemon/engine/view/plan_view.hpp"

#include <algorithm>
#include <limits>

#include "daemon/farm/land_measure.hpp"

namespace gley::daemon {

namespace {

/// North-west and south-east corner of all fields.
struct Corners {
  double west = 180.0;
  double east = -180.0;
  double south = 90.0;
  double north = -90.0;

  void take(const GeoPoint& point) {
    west = std::min(west, point.longitude);
    east = std::max(east, point.longitude);
    south = std::min(south, point.latitude);
    north = std::max(north, point.latitude);
  }
};

Corners corners_of(const FarmConfig& farm) {
  Corners corners;
  for (const FieldConfig& field : farm.fields) {
    if (!field.shape) continue;
    for (const GeoPolygon& polygon : field.shape->polygons)
      for (const GeoPoint& point : polygon.rings.front()) corners.take(point);
  }
  return corners;
}

/// From degrees to the plan, y downwards, with a margin around.
class Sheet {
 public:
  explicit Sheet(const Corners& corners)
      : plane_({.longitude = corners.west, .latitude = corners.north}) {
    const PlanePoint far = plane_.at({.longitude = corners.east, .latitude = corners.south});
    margin_m_ = 0.04 * std::max(far.x_m, -far.y_m);
    width_m_ = far.x_m + 2.0 * margin_m_;
    height_m_ = -far.y_m + 2.0 * margin_m_;
  }
  [[nodiscard]] PlanPoint at(const GeoPoint& point) const {
    const PlanePoint own = plane_.at(point);
    return {.x_m = own.x_m + margin_m_, .y_m = margin_m_ - own.y_m};
  }
  [[nodiscard]] PlanLine line(const GeoLine& line) const {
    PlanLine out;
    out.reserve(line.size());
    for (const GeoPoint& point : line) out.push_back(at(point));
    return out;
  }
  [[nodiscard]] double width_m() const { return width_m_; }
  [[nodiscard]] double height_m() const { return height_m_; }

 private:
  Plane plane_;
  double margin_m_ = 0.0;
  double width_m_ = 0.0;
  double height_m_ = 0.0;
};

PlannedField planned(const FieldConfig& field, const FarmConfig& farm, const Sheet& sheet) {
  PlannedField out;
  out.id = field.id;
  double west = std::numeric_limits<double>::infinity();
  double east = -west;
  for (const GeoPolygon& polygon : field.shape->polygons)
    for (const GeoLine& ring : polygon.rings) {
      out.rings.push_back(sheet.line(ring));
      for (const PlanPoint& point : out.rings.back()) {
        west = std::min(west, point.x_m);
        east = std::max(east, point.x_m);
      }
    }
  out.width_m = east - west;
  out.label = sheet.at(label_point(*field.shape));
  const BufferShare share = buffer_share(*field.shape, farm.watercourses, farm.springs);
  out.area_ha = share.field_ha;
  out.buffer_ha = share.buffer_ha;
  return out;
}

}  // namespace

std::shared_ptr<const PlanView> plan_of(const FarmConfig& farm) {
  const bool drawn = std::any_of(farm.fields.begin(), farm.fields.end(),
                                 [](const FieldConfig& field) { return field.shape.has_value(); });
  if (!drawn) return nullptr;
  const Sheet sheet(corners_of(farm));
  auto plan = std::make_shared<PlanView>();
  plan->width_m = sheet.width_m();
  plan->height_m = sheet.height_m();
  for (const FieldConfig& field : farm.fields)
    if (field.shape) plan->fields.push_back(planned(field, farm, sheet));
  for (const WatercourseConfig& water : farm.watercourses) {
    PlannedWater own{.name = water.name, .lines = {}, .buffer_m = water.buffer_m};
    for (const GeoLine& line : water.lines) own.lines.push_back(sheet.line(line));
    plan->watercourses.push_back(std::move(own));
  }
  for (const SpringConfig& spring : farm.springs)
    plan->springs.push_back(
        {.name = spring.name, .at = sheet.at(spring.at), .buffer_m = spring.buffer_m});
  return plan;
}

}  // namespace gley::daemon

#include "daemon/board/documents/boundaries_json.hpp"

#include <nlohmann/json.hpp>

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

Json coordinates(const FieldShape& shape) {
  Json polygons = Json::array();
  for (const GeoPolygon& polygon : shape.polygons) {
    Json rings = Json::array();
    for (const GeoLine& ring : polygon.rings) {
      Json points = Json::array();
      for (const GeoPoint& point : ring) points.push_back({point.longitude, point.latitude});
      rings.push_back(std::move(points));
    }
    polygons.push_back(std::move(rings));
  }
  return polygons;
}

}  // namespace

std::string boundaries_json(const FarmConfig& farm) {
  Json features = Json::array();
  for (const FieldConfig& field : farm.fields) {
    if (!field.shape) continue;
    features.push_back(
        {{"type", "Feature"},
         {"id", field.id},
         {"properties", nullptr},
         {"geometry", {{"type", "MultiPolygon"}, {"coordinates", coordinates(*field.shape)}}}});
  }
  const Json collection{{"type", "FeatureCollection"}, {"features", features}};
  return collection.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace gley::daemon

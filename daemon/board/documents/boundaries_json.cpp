#include "daemon/board/documents/boundaries_json.hpp"

#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

Json line(const GeoLine& ring) {
  return json_list(ring, [](const GeoPoint& at) { return Json{at.longitude, at.latitude}; });
}

Json coordinates(const FieldShape& shape) {
  return json_list(shape.polygons,
                   [](const GeoPolygon& polygon) { return json_list(polygon.rings, line); });
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
  return json_text(Json{{"type", "FeatureCollection"}, {"features", features}});
}

}  // namespace gley::daemon

#include "daemon/board/documents/boundaries_json.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

namespace gley::daemon {

TEST_CASE("fields with an outline are a GeoJSON collection, longitude first") {
  FarmConfig farm;
  farm.fields.emplace_back().id = "plain";
  FieldConfig& top = farm.fields.emplace_back();
  top.id = "top";
  const GeoLine ring{{-1.3, 53.9}, {-1.29, 53.9}, {-1.29, 53.91}, {-1.3, 53.9}};
  top.shape = FieldShape{{GeoPolygon{{ring}}}};
  // By hand from RFC 7946, sections 3.1.1, 3.1.7 and 3.3.
  const auto want = nlohmann::json::parse(R"({"type":"FeatureCollection","features":[
    {"type":"Feature","id":"top","properties":null,"geometry":{"type":"MultiPolygon",
     "coordinates":[[[[-1.3,53.9],[-1.29,53.9],[-1.29,53.91],[-1.3,53.9]]]]}}]})");
  CHECK(nlohmann::json::parse(boundaries_json(farm)) == want);
  CHECK(nlohmann::json::parse(boundaries_json({}))["features"].empty());
}

}  // namespace gley::daemon

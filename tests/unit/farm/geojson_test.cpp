#include "daemon/farm/geojson.hpp"

#include <catch2/catch.hpp>

#include "daemon/farm/land_measure.hpp"
#include "tests/unit/farm/field_text.hpp"

using namespace gley::daemon;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;
using gley::test::ConfigDirectory;
using gley::test::keys;
using gley::test::least_farm;

namespace {

const std::string square =
    "[[[-1.30, 53.90], [-1.29, 53.90], [-1.29, 53.91], [-1.30, 53.91], [-1.30, 53.90]]]";

std::string polygon(const std::string& coordinates) {
  return "{\"type\": \"Polygon\", \"coordinates\": " + coordinates + "}";
}

std::string fault_of(const std::string& text) {
  const auto shape = field_shape_of(text);
  return shape ? "none" : shape.error();
}

/// The least farm whose field has this boundary.
void write_farm(const ConfigDirectory& directory, const std::string& boundary) {
  directory.write("top.geojson", boundary);
  directory.write("farm.toml", keys("boundary = \"top.geojson\""));
}

std::vector<std::string> problems_with(const std::string& boundary) {
  const ConfigDirectory directory;
  write_farm(directory, boundary);
  return directory.problems();
}

}  // namespace

TEST_CASE("a boundary is a polygon, several, or features of them") {
  for (const std::string& text :
       {polygon(square), "{\"type\": \"MultiPolygon\", \"coordinates\": [" + square + "]}",
        "{\"type\": \"Feature\", \"properties\": null, \"geometry\": " + polygon(square) + "}",
        "{\"type\": \"FeatureCollection\", \"features\": [{\"type\": \"Feature\", \"geometry\": " +
            polygon(square) + "}]}"}) {
    INFO(text);
    const auto shape = field_shape_of(text);
    REQUIRE(shape);
    REQUIRE(shape->polygons.size() == 1);
    CHECK(shape->polygons[0].rings[0][1] == GeoPoint{.longitude = -1.29, .latitude = 53.90});
  }
}

TEST_CASE("a faulty boundary is refused with its place in the file") {
  CHECK_THAT(fault_of("{\"type\":\n \"Polygon\",\n oops}"), StartsWith("line 3: this is not JSON"));
  CHECK_THAT(fault_of("[]"), Contains("a GeoJSON object is needed"));
  CHECK_THAT(fault_of("{\"type\": \"Point\", \"coordinates\": [-1.3, 53.9]}"),
             StartsWith("at /type: is \"Point\"; a Polygon or MultiPolygon"));
  CHECK_THAT(fault_of("{\"type\": \"Polygon\"}"), Contains("\"coordinates\" is missing"));
  CHECK_THAT(
      fault_of(polygon("[[[-1.30, 53.90], [-1.29, 53.90], [-1.29, 53.91], [-1.30, 53.91]]]")),
      StartsWith("at /coordinates/0: the ring is not closed"));
  CHECK_THAT(fault_of(polygon("[[[-1.30, 53.90], [-1.29, 53.90], [-1.30, 53.90]]]")),
             StartsWith("at /coordinates/0: a ring needs four positions"));
  CHECK_THAT(fault_of(polygon("[[[-1.30, 53.90], [-1.29], [-1.29, 53.91], [-1.30, 53.90]]]")),
             StartsWith("at /coordinates/0/1: a position is needed"));
  CHECK_THAT(fault_of(polygon("[[[446012, 443871], [446500, 443871], [446500, 444000], "
                              "[446012, 443871]]]")),
             Contains("at /coordinates/0/0: [446012, 443871] is no longitude and latitude"));
  CHECK_THAT(fault_of("{\"type\": \"FeatureCollection\", \"features\": []}"),
             Contains("holds no Polygon"));
}

TEST_CASE("a configuration with a faulty boundary names both files") {
  const auto open =
      problems_with(polygon("[[[-1.30, 53.90], [-1.29, 53.90], [-1.29, 53.91], [-1.30, 53.91]]]"));
  REQUIRE(open.size() == 1);
  CHECK_THAT(open[0], StartsWith("farm.toml:16: [[field]] 'top': boundary is top.geojson; at "
                                 "/coordinates/0: the ring is not closed"));
  const auto swapped = problems_with(polygon(
      "[[[53.90, -1.30], [53.90, -1.29], [53.91, -1.29], [53.91, -1.30], [53.90, -1.30]]]"));
  REQUIRE(swapped.size() == 1);
  CHECK_THAT(swapped[0], Contains("km from the farm; its order seems to be latitude, longitude"));
  const auto elsewhere =
      problems_with(polygon("[[[10.0, 50.0], [10.1, 50.0], [10.1, 50.1], [10.0, 50.0]]]"));
  REQUIRE(elsewhere.size() == 1);
  CHECK_THAT(elsewhere[0], Contains("check it, and the farm's latitude and longitude"));
}

TEST_CASE("a field without area_ha has that of its boundary") {
  const ConfigDirectory directory;
  write_farm(directory, polygon(square));
  const auto result = directory.read();
  REQUIRE(result.farm);
  // 0.01 degrees of latitude are 1111.95 m, of longitude at 53.905 N 655.09 m, on a sphere of
  // 6371.0072 km: 72.84 ha.
  CHECK(result.farm->fields[0].area_ha.value() == Approx(72.84).epsilon(0.001));
}

TEST_CASE("the area of a degree square on the equator is that of its zone on the sphere") {
  // R2 * pi/180 * sin(1 deg) with R = 6371.0072 km: 12,363.7 km2.
  const GeoLine ring{{0, 0}, {1, 0}, {1, 1}, {0, 1}, {0, 0}};
  CHECK(ring_area_m2(ring) / 1e6 == Approx(12363.7).epsilon(0.0001));
}

TEST_CASE("a hole counts out of the area") {
  const GeoLine outer{{0, 0}, {0.02, 0}, {0.02, 0.02}, {0, 0.02}, {0, 0}};
  const GeoLine inner{
      {0.005, 0.005}, {0.015, 0.005}, {0.015, 0.015}, {0.005, 0.015}, {0.005, 0.005}};
  FieldShape shape;
  shape.polygons = {{.rings = {outer, inner}}};
  CHECK(area_ha(shape) == Approx(0.75 * ring_area_m2(outer) / 1e4).epsilon(0.0001));
}

TEST_CASE("a stream along one side takes a strip of the field, a spring a circle") {
  // On the equator 0.01 degrees are 1111.95 m either way.
  FieldShape shape;
  shape.polygons = {{.rings = {{{0, 0}, {0.01, 0}, {0.01, 0.01}, {0, 0.01}, {0, 0}}}}};
  WatercourseConfig stream;
  stream.lines = {{{-0.01, 0}, {0.02, 0}}};
  stream.buffer_m = 111.195;
  const BufferShare strip = buffer_share(shape, {stream}, {});
  CHECK(strip.field_ha == Approx(123.64).epsilon(0.001));
  CHECK(strip.buffer_ha == Approx(0.1 * strip.field_ha).margin(0.02 * strip.field_ha));
  SpringConfig spring;
  spring.at = {.longitude = 0.005, .latitude = 0.005};
  spring.buffer_m = 300.0;
  const BufferShare circle = buffer_share(shape, {}, {spring});
  CHECK(circle.buffer_ha == Approx(28.27).margin(0.01 * circle.field_ha));  // pi * 300 m squared
  SpringConfig far = spring;
  far.at.longitude = 0.02;
  CHECK(buffer_share(shape, {}, {far}).buffer_ha == 0.0);
}

TEST_CASE("a label stands inside its field") {
  // An L: the middle of its box lies outside it.
  FieldShape shape;
  shape.polygons = {
      {.rings = {
           {{0, 0}, {0.01, 0}, {0.01, 0.002}, {0.002, 0.002}, {0.002, 0.01}, {0, 0.01}, {0, 0}}}}};
  const GeoPoint at = label_point(shape);
  CHECK((at.latitude < 0.002 || at.longitude < 0.002));
  CHECK(at.latitude > 0.0);
  CHECK(at.longitude > 0.0);
}

TEST_CASE("a watercourse is a list of points or a file of lines") {
  const auto problems = [](const std::string& course) {
    return gley::test::problems_of(least_farm() +
                                   "[[watercourse]]\nid = \"beck\"\ncourse = " + course + "\n");
  };
  CHECK(problems("[[-1.30, 53.90], [-1.29, 53.90]]").empty());
  CHECK_THAT(problems("[[-1.30, 53.90]]").at(0), Contains("course needs two points at least"));
  CHECK_THAT(problems("[[-1.30], [-1.29, 53.90]]").at(0), Contains("not [longitude, latitude]"));
  CHECK_THAT(problems("[[53.90, -1.30], [53.90, -1.29]]").at(0),
             Contains("GeoJSON has the longitude first"));
  CHECK_THAT(problems("7").at(0), Contains("or the name of a file"));
  CHECK_THAT(problems("\"beck.geojson\"").at(0), Contains("there is no such file"));
  CHECK_FALSE(lines_of(polygon(square)));
}

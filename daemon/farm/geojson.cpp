#include "daemon/farm/geojson.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "daemon/farm/land_measure.hpp"
#include "daemon/text/json_depth.hpp"
#include "daemon/text/number_text.hpp"
#include "daemon/text/utf8.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::json;

/// What is wrong and where; does not leave this file.
struct Fault : std::runtime_error {
  Fault(const std::string& place, const std::string& what)
      : std::runtime_error((place.empty() ? std::string("at its top: ") : "at " + place + ": ") +
                           what) {}
};

std::string below(const std::string& place, std::size_t index) {
  return place + '/' + std::to_string(index);
}

const Json& member(const Json& object, const std::string& key, const std::string& place) {
  if (!object.is_object()) throw Fault(place, "this is no JSON object; a GeoJSON object is needed");
  const auto at = object.find(key);
  if (at == object.end()) throw Fault(place, "\"" + key + "\" is missing");
  return *at;
}

const Json& array(const Json& value, const std::string& place) {
  if (!value.is_array()) throw Fault(place, "a list is needed here");
  return value;
}

GeoPoint position(const Json& value, const std::string& place) {
  if (!value.is_array() || value.size() < 2 || !value[0].is_number() || !value[1].is_number())
    throw Fault(place, "a position is needed: [longitude, latitude], two numbers");
  const GeoPoint point{.longitude = value[0].get<double>(), .latitude = value[1].get<double>()};
  if (point.longitude < -180.0 || point.longitude > 180.0 || point.latitude < -90.0 ||
      point.latitude > 90.0)
    throw Fault(place, "[" + number_text(point.longitude) + ", " + number_text(point.latitude) +
                           "] is no longitude and latitude in degrees; export the file in WGS 84 "
                           "(EPSG:4326), as RFC 7946 has it");
  return point;
}

GeoLine line(const Json& value, const std::string& place) {
  GeoLine points;
  for (std::size_t i = 0; i < array(value, place).size(); ++i)
    points.push_back(position(value[i], below(place, i)));
  if (points.size() < 2) throw Fault(place, "a line needs two positions at least");
  return points;
}

GeoLine ring(const Json& value, const std::string& place) {
  GeoLine points = line(value, place);
  if (points.front() != points.back())
    throw Fault(place, "the ring is not closed; its last position must be the same as its first");
  if (points.size() < 4)
    throw Fault(place, "a ring needs four positions at least, the first twice");
  if (ring_area_m2(points) <= 0.0) throw Fault(place, "the ring encloses nothing");
  return points;
}

GeoPolygon polygon(const Json& value, const std::string& place) {
  GeoPolygon out;
  for (std::size_t i = 0; i < array(value, place).size(); ++i)
    out.rings.push_back(ring(value[i], below(place, i)));
  if (out.rings.empty()) throw Fault(place, "a polygon needs a ring");
  return out;
}

struct Shapes {
  std::vector<GeoPolygon> polygons;
  std::vector<GeoLine> lines;
};

/// What a file may hold: of areas or of lines.
struct Wanted {
  std::string_view one;
  std::string_view several;
};
constexpr Wanted areas{"Polygon", "MultiPolygon"};
constexpr Wanted courses{"LineString", "MultiLineString"};

void add_one(const Json& coordinates, const std::string& place, const Wanted& wanted,
             Shapes& shapes) {
  if (wanted.one == areas.one)
    shapes.polygons.push_back(polygon(coordinates, place));
  else
    shapes.lines.push_back(line(coordinates, place));
}

void add_geometry(const Json& geometry, const std::string& place, const Wanted& wanted,
                  Shapes& shapes) {
  const Json& type = member(geometry, "type", place);
  const std::string word = type.is_string() ? type.get<std::string>() : type.dump();
  if (word != wanted.one && word != wanted.several)
    throw Fault(place + "/type", "is \"" + word + "\"; a " + std::string(wanted.one) + " or " +
                                     std::string(wanted.several) +
                                     ", or Features of them, are needed here");
  const Json& coordinates = member(geometry, "coordinates", place);
  const std::string at = place + "/coordinates";
  if (word == wanted.one) return add_one(coordinates, at, wanted, shapes);
  for (std::size_t i = 0; i < array(coordinates, at).size(); ++i)
    add_one(coordinates[i], below(at, i), wanted, shapes);
}

void add_object(const Json& object, const std::string& place, const Wanted& wanted,
                Shapes& shapes) {
  const Json& type = member(object, "type", place);
  if (type == "Feature")
    return add_geometry(member(object, "geometry", place), place + "/geometry", wanted, shapes);
  if (type != "FeatureCollection") return add_geometry(object, place, wanted, shapes);
  const std::string at = place + "/features";
  const Json& features = array(member(object, "features", place), at);
  for (std::size_t i = 0; i < features.size(); ++i) {
    if (member(features[i], "type", below(at, i)) != "Feature")
      throw Fault(below(at, i) + "/type", "is not \"Feature\"");
    add_object(features[i], below(at, i), wanted, shapes);
  }
}

std::string syntax_words(const std::string& text, const Json::parse_error& error) {
  const auto end = text.begin() + static_cast<std::ptrdiff_t>(std::min(error.byte, text.size()));
  const auto line = 1 + std::count(text.begin(), end, '\n');
  return "line " + std::to_string(line) + ": this is not JSON";
}

tl::expected<Shapes, std::string> shapes_of(const std::string& text, const Wanted& wanted) {
  if (nests_too_deep(text)) return tl::unexpected(std::string(nests_too_deep_text));
  Shapes shapes;
  try {
    add_object(Json::parse(text), "", wanted, shapes);
  } catch (const Json::parse_error& error) {
    return tl::unexpected(syntax_words(text, error));
  } catch (const Json::exception& error) {  // a number too large for a double
    return tl::unexpected("this cannot be read: " + printable(error.what()));
  } catch (const Fault& fault) {
    return tl::unexpected(printable(fault.what()));
  }
  if (shapes.polygons.empty() && shapes.lines.empty())
    return tl::unexpected("it holds no " + std::string(wanted.one));
  return shapes;
}

tl::expected<std::string, std::string> text_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) return tl::unexpected(std::string("it cannot be read"));
  return std::string(std::istreambuf_iterator<char>(in), {});
}

}  // namespace

tl::expected<FieldShape, std::string> field_shape_of(const std::string& text) {
  return shapes_of(text, areas).map([](Shapes shapes) {
    return FieldShape{.polygons = std::move(shapes.polygons)};
  });
}

tl::expected<std::vector<GeoLine>, std::string> lines_of(const std::string& text) {
  return shapes_of(text, courses).map([](Shapes shapes) { return std::move(shapes.lines); });
}

tl::expected<FieldShape, std::string> read_field_shape(const std::filesystem::path& file) {
  return text_of(file).and_then(field_shape_of);
}

tl::expected<std::vector<GeoLine>, std::string> read_lines(const std::filesystem::path& file) {
  return text_of(file).and_then(lines_of);
}

}  // namespace gley::daemon

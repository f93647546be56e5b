#include <cmath>

#include "daemon/farm/config_draft.hpp"
#include "daemon/farm/geojson.hpp"
#include "daemon/farm/land_measure.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

/// Whether the key names a file that is there; that it is not was said already.
std::optional<std::filesystem::path> file_at(const TableReader& table, std::string_view key) {
  auto file = table.existing_file(key);
  std::error_code error;
  if (!file || !std::filesystem::is_regular_file(*file, error)) return {};
  return file;
}

/// Farther from the farm no field of it lies, and a mistake is likelier than a long drive.
constexpr double far_km = 100.0;

void check_distance(const GeoPoint& point, const FarmConfig& farm, const FilePlace& place,
                    const std::string& label, ProblemList& problems) {
  const GeoPoint home{.longitude = farm.longitude, .latitude = farm.latitude};
  const double km = distance_km(home, point);
  if (km <= far_km) return;
  const bool swapped =
      distance_km(home, {.longitude = point.latitude, .latitude = point.longitude}) <= far_km;
  problems.add(place, label + " has [" + number_text(point.longitude) + ", " +
                          number_text(point.latitude) + "], which is " +
                          std::to_string(static_cast<int>(km)) + " km from the farm; " +
                          (swapped ? "its order seems to be latitude, longitude: GeoJSON has the "
                                     "longitude first"
                                   : "check it, and the farm's latitude and longitude"));
}

}  // namespace

std::optional<FieldShape> read_boundary(const TableReader& field) {
  const auto file = file_at(field, "boundary");
  if (!file) return {};
  auto shape = read_field_shape(*file);
  if (shape) return *std::move(shape);
  field.problem("boundary", "is " + file->string() + "; " + shape.error());
  return {};
}

namespace {

/// Written in the configuration itself: [[-1.30, 53.90], [-1.29, 53.90]].
std::vector<GeoLine> written_course(const TableReader& table, const toml::array& points) {
  GeoLine line;
  for (const toml::node& node : points) {
    const toml::array* pair = node.as_array();
    const auto longitude =
        pair != nullptr && pair->size() == 2 ? pair->get(0)->value<double>() : std::nullopt;
    const auto latitude = longitude ? pair->get(1)->value<double>() : std::nullopt;
    if (!latitude || std::abs(*longitude) > 180.0 || std::abs(*latitude) > 90.0) {
      table.problem("course", "has a point that is not [longitude, latitude] in degrees");
      return {};
    }
    line.push_back({.longitude = *longitude, .latitude = *latitude});
  }
  if (line.size() >= 2) return {line};
  table.problem("course", "needs two points at least");
  return {};
}

std::vector<GeoLine> read_course(const TableReader& table) {
  const toml::node* value = table.node("course");
  if (value == nullptr) return {};
  if (const toml::array* points = value->as_array()) return written_course(table, *points);
  if (!value->is_string()) {
    table.problem("course", "must be a list of [longitude, latitude], or the name of a file");
    return {};
  }
  const auto file = file_at(table, "course");
  if (!file) return {};
  auto lines = read_lines(*file);
  if (lines) return *std::move(lines);
  table.problem("course", "is " + file->string() + "; " + lines.error());
  return {};
}

}  // namespace

void read_watercourse(const TableReader& table, ConfigDraft& draft) {
  WatercourseConfig water;
  read_identity(table, water);
  table.assign(water.buffer_m, table.number("buffer_m"));
  water.lines = read_course(table);
  draft.farm.watercourses.push_back(std::move(water));
}

void read_spring(const TableReader& table, ConfigDraft& draft) {
  SpringConfig spring;
  read_identity(table, spring);
  table.assign(spring.at.latitude, table.number("latitude"));
  table.assign(spring.at.longitude, table.number("longitude"));
  table.assign(spring.buffer_m, table.number("buffer_m"));
  draft.farm.springs.push_back(std::move(spring));
}

void check_land(const FarmConfig& farm, ProblemList& problems) {
  for (const FieldConfig& field : farm.fields) {
    if (!field.shape) continue;
    check_distance(field.shape->polygons.front().rings.front().front(), farm, field.place,
                   "[[field]] '" + field.id + "': boundary", problems);
  }
  for (const WatercourseConfig& water : farm.watercourses)
    if (!water.lines.empty())
      check_distance(water.lines.front().front(), farm, water.place,
                     "[[watercourse]] '" + water.id + "': course", problems);
  for (const SpringConfig& spring : farm.springs)
    check_distance(spring.at, farm, spring.place, "[[spring]] '" + spring.id + "': its place",
                   problems);
}

}  // namespace gley::daemon

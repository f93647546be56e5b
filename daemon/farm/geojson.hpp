#pragma once
#include <filesystem>
#include <string>
#include <tl/expected.hpp>

#include "daemon/farm/land.hpp"

/// Shapes from GeoJSON files (RFC 7946). The error tells the place in the file and what to do:
/// "at /geometry/coordinates/0: the ring is not closed; ...".
namespace gley::daemon {

/// All polygons of the file: a Polygon or MultiPolygon, or Features of them.
[[nodiscard]] tl::expected<FieldShape, std::string> read_field_shape(
    const std::filesystem::path& file);

/// All lines of the file: a LineString or MultiLineString, or Features of them.
[[nodiscard]] tl::expected<std::vector<GeoLine>, std::string> read_lines(
    const std::filesystem::path& file);

/// The same from a file's text.
[[nodiscard]] tl::expected<FieldShape, std::string> field_shape_of(const std::string& text);
[[nodiscard]] tl::expected<std::vector<GeoLine>, std::string> lines_of(const std::string& text);

}  // namespace gley::daemon

#pragma once
#include <string>
#include <vector>

#include "daemon/farm/file_place.hpp"

/// Where things lie on a farm: outlines of fields, watercourses and springs with the strip beside
/// each that is kept free of spreading.
namespace gley::daemon {

/// WGS 84, degrees, as GeoJSON has it (RFC 7946, section 4).
struct GeoPoint {
  double longitude = 0.0;
  double latitude = 0.0;

  friend bool operator==(const GeoPoint&, const GeoPoint&) = default;
};

/// A line of points; as a ring it ends where it begins.
using GeoLine = std::vector<GeoPoint>;

/// An outline and the holes in it.
struct GeoPolygon {
  std::vector<GeoLine> rings;  ///< the outline first; each is closed
};

struct FieldShape {
  std::vector<GeoPolygon> polygons;  ///< at least one
};

struct WatercourseConfig {
  std::string id;
  std::string name;
  std::vector<GeoLine> lines;
  double buffer_m = 10.0;  ///< to either side
  FilePlace place;
};

struct SpringConfig {
  std::string id;
  std::string name;
  GeoPoint at;
  double buffer_m = 50.0;  ///< around it
  FilePlace place;
};

}  // namespace gley::daemon

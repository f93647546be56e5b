#pragma once
#include "daemon/farm/land.hpp"

/// Areas and distances on the ground.
namespace gley::daemon {

/// Area that a closed ring encloses, m2, whichever way it runs. Source: Chamberlain and Duquette
/// (2007), JPL Publication 07-03, Eq. for the area of a polygon on a sphere; radius 6,371,007.2 m
/// of the sphere that has WGS 84's area. Check: a degree square on the equator: 12,363.7 km2 (its
/// exact zone, R2 * pi/180 * sin 1 deg).
[[nodiscard]] double ring_area_m2(const GeoLine& ring);

/// Outlines less their holes.
[[nodiscard]] double area_ha(const FieldShape& shape);

/// Great-circle distance, km (haversine), on the same sphere. By the model's own sine and cosine:
/// which stations are neighbours goes by it, on every machine alike.
[[nodiscard]] double distance_km(const GeoPoint& a, const GeoPoint& b);

/// Metres east and north of an origin.
struct PlanePoint {
  double x_m = 0.0;
  double y_m = 0.0;
};

/// The neighbourhood of a point as a plane; a farm's width away it is off by under 0.1 %.
class Plane {
 public:
  explicit Plane(const GeoPoint& origin);
  [[nodiscard]] PlanePoint at(const GeoPoint& point) const;

 private:
  GeoPoint origin_;
  double m_per_degree_east_;
};

/// What lies in a field's buffers to watercourses and springs.
struct BufferShare {
  double field_ha = 0.0;
  double buffer_ha = 0.0;  ///< of it, where nothing may be spread
};

/// The share is counted on a grid of some thousand points, so it is right to about a hundredth of
/// the field.
[[nodiscard]] BufferShare buffer_share(const FieldShape& shape,
                                       const std::vector<WatercourseConfig>& watercourses,
                                       const std::vector<SpringConfig>& springs);

/// A point well inside, for a label: the one of a grid that lies farthest from every edge.
[[nodiscard]] GeoPoint label_point(const FieldShape& shape);

}  // namespace gley::daemon

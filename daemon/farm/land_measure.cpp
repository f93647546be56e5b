#include "daemon/farm/land_measure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "model/numeric/elementary.hpp"

namespace gley::daemon {

namespace {

constexpr double radius_m = 6371007.2;
constexpr double m2_per_ha = 10000.0;
constexpr double points_of_grid = 4000.0;
constexpr double points_of_label_grid = 900.0;

double radians(double degrees) {
  return degrees * model::pi / 180.0;
}

double squared(double value) {
  return value * value;
}

using PlaneLine = std::vector<PlanePoint>;

PlaneLine on_plane(const GeoLine& line, const Plane& plane) {
  PlaneLine out;
  out.reserve(line.size());
  for (const GeoPoint& point : line) out.push_back(plane.at(point));
  return out;
}

double distance_squared(const PlanePoint& point, const PlanePoint& a, const PlanePoint& b) {
  const double length = squared(b.x_m - a.x_m) + squared(b.y_m - a.y_m);
  double along = 0.0;
  if (length > 0.0)
    along =
        ((point.x_m - a.x_m) * (b.x_m - a.x_m) + (point.y_m - a.y_m) * (b.y_m - a.y_m)) / length;
  along = std::clamp(along, 0.0, 1.0);
  return squared(point.x_m - a.x_m - along * (b.x_m - a.x_m)) +
         squared(point.y_m - a.y_m - along * (b.y_m - a.y_m));
}

double distance_squared(const PlanePoint& point, const PlaneLine& line) {
  if (line.size() == 1) return distance_squared(point, line[0], line[0]);
  double least = std::numeric_limits<double>::infinity();
  for (std::size_t i = 0; i + 1 < line.size(); ++i)
    least = std::min(least, distance_squared(point, line[i], line[i + 1]));
  return least;
}

/// Whether a ray to the east crosses a ring an odd number of times.
bool is_inside(const PlanePoint& point, const PlaneLine& ring) {
  bool inside = false;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i) {
    const PlanePoint& a = ring[i];
    const PlanePoint& b = ring[i + 1];
    if ((a.y_m > point.y_m) == (b.y_m > point.y_m)) continue;
    const double x_m = a.x_m + (point.y_m - a.y_m) / (b.y_m - a.y_m) * (b.x_m - a.x_m);
    if (point.x_m < x_m) inside = !inside;
  }
  return inside;
}

struct Box {
  PlanePoint low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
  PlanePoint high{-std::numeric_limits<double>::infinity(),
                  -std::numeric_limits<double>::infinity()};
  void take(const PlanePoint& point) {
    low = {std::min(low.x_m, point.x_m), std::min(low.y_m, point.y_m)};
    high = {std::max(high.x_m, point.x_m), std::max(high.y_m, point.y_m)};
  }
};

/// A field's rings on a plane of its own.
class PlaneShape {
 public:
  explicit PlaneShape(const FieldShape& shape)
      : plane_(shape.polygons.front().rings.front().front()) {
    for (const GeoPolygon& polygon : shape.polygons)
      for (const GeoLine& ring : polygon.rings) {
        rings_.push_back(on_plane(ring, plane_));
        for (const PlanePoint& point : rings_.back()) box_.take(point);
      }
  }

  [[nodiscard]] const Plane& plane() const { return plane_; }
  [[nodiscard]] const std::vector<PlaneLine>& rings() const { return rings_; }

  /// Holes count out, as their rings cross the ray too.
  [[nodiscard]] bool has(const PlanePoint& point) const {
    bool inside = false;
    for (const PlaneLine& ring : rings_) inside ^= is_inside(point, ring);
    return inside;
  }

  /// Hands about `count` points, evenly laid over the box, to `take`.
  template <class Take>
  void each_point(double count, Take take) const {
    const double width_m = box_.high.x_m - box_.low.x_m;
    const double height_m = box_.high.y_m - box_.low.y_m;
    const double step_m = std::sqrt(width_m * height_m / count);
    const auto columns = static_cast<int>(std::ceil(width_m / step_m));
    const auto rows = static_cast<int>(std::ceil(height_m / step_m));
    for (int row = 0; row < rows; ++row)
      for (int column = 0; column < columns; ++column)
        take(PlanePoint{box_.low.x_m + (column + 0.5) * width_m / columns,
                        box_.low.y_m + (row + 0.5) * height_m / rows});
  }

  /// Whether anything within `reach_m` of the line can lie in the box.
  [[nodiscard]] bool is_near(const PlaneLine& line, double reach_m) const {
    Box own;
    for (const PlanePoint& point : line) own.take(point);
    return own.low.x_m - reach_m <= box_.high.x_m && own.high.x_m + reach_m >= box_.low.x_m &&
           own.low.y_m - reach_m <= box_.high.y_m && own.high.y_m + reach_m >= box_.low.y_m;
  }

 private:
  Plane plane_;
  std::vector<PlaneLine> rings_;
  Box box_;
};

struct Buffer {
  PlaneLine line;
  double reach_m = 0.0;
};

std::vector<Buffer> buffers_near(const PlaneShape& shape,
                                 const std::vector<WatercourseConfig>& watercourses,
                                 const std::vector<SpringConfig>& springs) {
  std::vector<Buffer> near;
  const auto add = [&](const GeoLine& line, double reach_m) {
    Buffer buffer{.line = on_plane(line, shape.plane()), .reach_m = reach_m};
    if (shape.is_near(buffer.line, reach_m)) near.push_back(std::move(buffer));
  };
  for (const WatercourseConfig& water : watercourses)
    for (const GeoLine& line : water.lines) add(line, water.buffer_m);
  for (const SpringConfig& spring : springs) add({spring.at}, spring.buffer_m);
  return near;
}

}  // namespace

double ring_area_m2(const GeoLine& ring) {
  double sum = 0.0;
  for (std::size_t i = 0; i + 1 < ring.size(); ++i)
    sum += radians(ring[i + 1].longitude - ring[i].longitude) *
           (2.0 + std::sin(radians(ring[i].latitude)) + std::sin(radians(ring[i + 1].latitude)));
  return std::fabs(sum) * squared(radius_m) / 2.0;
}

double area_ha(const FieldShape& shape) {
  double sum_m2 = 0.0;
  for (const GeoPolygon& polygon : shape.polygons)
    for (const GeoLine& ring : polygon.rings)
      sum_m2 += (&ring == &polygon.rings.front() ? 1.0 : -1.0) * ring_area_m2(ring);
  return sum_m2 / m2_per_ha;
}

double distance_km(const GeoPoint& a, const GeoPoint& b) {
  using model::cosine, model::sine;
  const double half = squared(sine(radians(b.latitude - a.latitude) / 2.0)) +
                      cosine(radians(a.latitude)) * cosine(radians(b.latitude)) *
                          squared(sine(radians(b.longitude - a.longitude) / 2.0));
  const double half_angle = model::pi / 2.0 - model::arc_cosine(std::sqrt(std::min(1.0, half)));
  return 2.0 * radius_m * half_angle / 1000.0;
}

Plane::Plane(const GeoPoint& origin)
    : origin_(origin),
      m_per_degree_east_(radius_m * radians(1.0) * std::cos(radians(origin.latitude))) {}

PlanePoint Plane::at(const GeoPoint& point) const {
  return {.x_m = (point.longitude - origin_.longitude) * m_per_degree_east_,
          .y_m = (point.latitude - origin_.latitude) * radius_m * radians(1.0)};
}

BufferShare buffer_share(const FieldShape& shape,
                         const std::vector<WatercourseConfig>& watercourses,
                         const std::vector<SpringConfig>& springs) {
  const PlaneShape own(shape);
  BufferShare share{.field_ha = area_ha(shape), .buffer_ha = 0.0};
  const std::vector<Buffer> buffers = buffers_near(own, watercourses, springs);
  if (buffers.empty()) return share;
  std::size_t inside = 0;
  std::size_t buffered = 0;
  own.each_point(points_of_grid, [&](const PlanePoint& point) {
    if (!own.has(point)) return;
    ++inside;
    buffered += std::any_of(buffers.begin(), buffers.end(), [&](const Buffer& buffer) {
      return distance_squared(point, buffer.line) <= squared(buffer.reach_m);
    });
  });
  if (inside > 0)
    share.buffer_ha = share.field_ha * static_cast<double>(buffered) / static_cast<double>(inside);
  return share;
}

GeoPoint label_point(const FieldShape& shape) {
  const PlaneShape own(shape);
  const GeoPoint origin = shape.polygons.front().rings.front().front();
  PlanePoint best;
  double best_distance = -1.0;
  own.each_point(points_of_label_grid, [&](const PlanePoint& point) {
    if (!own.has(point)) return;
    double least = std::numeric_limits<double>::infinity();
    for (const PlaneLine& ring : own.rings())
      least = std::min(least, distance_squared(point, ring));
    if (least <= best_distance) return;
    best_distance = least;
    best = point;
  });
  const PlanePoint degree =
      own.plane().at({.longitude = origin.longitude + 1.0, .latitude = origin.latitude + 1.0});
  return {.longitude = origin.longitude + best.x_m / degree.x_m,
          .latitude = origin.latitude + best.y_m / degree.y_m};
}

}  // namespace gley::daemon

#pragma once

namespace gley::daemon {

/// A place on the earth, degrees, north and east positive.
struct Place {
  double latitude = 0.0;
  double longitude = 0.0;
};

/// The great circle between two places, km, on a sphere of 6371 km.
[[nodiscard]] double distance_km(const Place& a, const Place& b);

}  // namespace gley::daemon

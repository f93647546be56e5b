#include "daemon/readings/distance.hpp"

#include <algorithm>
#include <cmath>

#include "model/numeric/elementary.hpp"

namespace gley::daemon {

double distance_km(const Place& a, const Place& b) {
  constexpr double rad = model::pi / 180.0;
  const double up = model::sine((b.latitude - a.latitude) * rad / 2.0);
  const double along = model::sine((b.longitude - a.longitude) * rad / 2.0);
  const double h =
      up * up + model::cosine(a.latitude * rad) * model::cosine(b.latitude * rad) * along * along;
  const double sine_of_half = std::sqrt(std::min(1.0, h));
  return 2.0 * 6371.0 * (model::pi / 2.0 - model::arc_cosine(sine_of_half));
}

}  // namespace gley::daemon

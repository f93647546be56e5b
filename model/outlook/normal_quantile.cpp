#include "model/outlook/normal_quantile.hpp"

#include <cmath>
#include <limits>

#include "model/numeric/elementary.hpp"

namespace gley::model {

double normal_quantile(double p) {
  if (!(p > 0.0 && p < 1.0)) return std::numeric_limits<double>::quiet_NaN();
  if (p == 0.5) return 0.0;
  if (p < 0.5) return -normal_quantile(1.0 - p);
  const double t = std::sqrt(-2.0 * natural_logarithm(1.0 - p));
  const double over = 2.515517 + t * (0.802853 + t * 0.010328);
  const double under = 1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308));
  return t - over / under;
}

}  // namespace gley::model

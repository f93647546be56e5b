#pragma once

namespace gley::model {

/// The value that a standard normal number stays under with probability p, 0 < p < 1, otherwise
/// NaN. Source: Abramowitz and Stegun (1964), Handbook of Mathematical Functions, Eq. 26.2.23,
/// absolute error under 4.5e-4. Check: 0.975 -> 1.960, 0.5 -> 0.
[[nodiscard]] double normal_quantile(double p);

}  // namespace gley::model

#pragma once
#include <cstddef>

namespace gley::model {

/// Chance of an event that `happened` of `members` saw, by the rule of succession, (k + 1)/(M + 2):
/// no number of members makes certain. Source: Laplace (1774).
/// Check: 3 of 12 -> 0.286, 4 of 20 -> 0.227.
struct MemberCount {
  std::size_t happened = 0;
  std::size_t members = 0;
};
[[nodiscard]] constexpr double chance_of(MemberCount count) {
  return (static_cast<double>(count.happened) + 1.0) / (static_cast<double>(count.members) + 2.0);
}

}  // namespace gley::model

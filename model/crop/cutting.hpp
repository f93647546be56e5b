#pragma once
#include <chrono>
#include <optional>
#include <vector>

#include "model/crop/calendar_day.hpp"

namespace gley::model {

/// How a sward is cut for hay or silage and comes back: from the values right after the cut to its
/// own, evenly over `recovery_d` days. Roots stay (FAO-56 says nothing of them: our choice).
/// Source: the course of FAO-56 Kcb between cuttings, Allen et al. (1998) p. 127-129 and Tables 11
/// and 17, alfalfa; the values of each crop stand in its row.
struct Cutting {
  std::vector<CalendarDay> dates;
  double kcb = 0.0;       ///< right after a cut
  double height_m = 0.0;  ///< of the stubble
  double cover = 0.0;     ///< of the stubble
  int recovery_d = 1;
};

/// Days since the last cut, 0 on its day; none if there was none in the year before.
[[nodiscard]] std::optional<int> days_since_cut(const std::vector<CalendarDay>& cuts,
                                                std::chrono::sys_days date);

}  // namespace gley::model

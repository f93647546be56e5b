#include "model/crop/cutting.hpp"

namespace gley::model {

std::optional<int> days_since_cut(const std::vector<CalendarDay>& cuts,
                                  std::chrono::sys_days date) {
  const std::chrono::year year = std::chrono::year_month_day{date}.year();
  std::optional<int> least_days;
  for (const CalendarDay& cut : cuts) {
    for (const std::chrono::year cut_in : {year, year - std::chrono::years{1}}) {
      if (cut.year && *cut.year != cut_in) continue;
      const std::chrono::sys_days day = day_in_year(cut_in, cut.day);
      if (day > date) continue;
      const int since = static_cast<int>((date - day).count());
      if (!least_days || since < *least_days) least_days = since;
    }
  }
  return least_days;
}

}  // namespace gley::model

#include "daemon/engine/fields/harvest_year.hpp"

namespace gley::daemon {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year;

HarvestCalendar::HarvestCalendar(double latitude_deg)
    : first_month_(latitude_deg < 0.0 ? std::chrono::April : std::chrono::October) {}

HarvestYear HarvestCalendar::of(sys_days date) const {
  const std::chrono::year_month_day day{date};
  const int began = static_cast<int>(day.year()) - (day.month() < first_month_ ? 1 : 0);
  return {.year = began + 1,
          .first = sys_days{year{began} / first_month_ / 1},
          .last = sys_days{year{began + 1} / first_month_ / 1} - days{1}};
}

const char* HarvestCalendar::begins() const {
  return first_month_ == std::chrono::October ? "1 October" : "1 April";
}

}  // namespace gley::daemon

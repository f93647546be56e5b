#pragma once
#include <chrono>

/// The season by which years are compared: from 1 October, when soils begin to refill, to 30
/// September; south of the equator from 1 April. Named by the year it ends in, which is its
/// harvest's. Our choice, the common water year.
namespace gley::daemon {

struct HarvestYear {
  int year = 0;  ///< in which it ends
  std::chrono::sys_days first;
  std::chrono::sys_days last;
};

class HarvestCalendar {
 public:
  explicit HarvestCalendar(double latitude_deg);
  [[nodiscard]] HarvestYear of(std::chrono::sys_days date) const;
  /// "1 October"
  [[nodiscard]] const char* begins() const;

 private:
  std::chrono::month first_month_;
};

}  // namespace gley::daemon

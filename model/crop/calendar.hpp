#pragma once
#include <chrono>
#include <optional>
#include <vector>

#include "model/crop/stand.hpp"

namespace gley::model {

/// One crop from sowing to harvest.
struct Sowing {
  std::chrono::sys_days sown;
  std::chrono::sys_days harvested;  ///< first day without it
  CropCourse course;
};

/// A crop sown on the same date every year.
struct YearlySowing {
  std::chrono::month_day sown;
  std::chrono::days season;
  CropCourse course;
};

/// Which crop stands on which day, for ever: a permanent stand, a crop sown each year, or dated
/// sowings; between crops the ground between. It needs no hand over harvest and sowing.
class CropCalendar {
 public:
  [[nodiscard]] static CropCalendar permanent(CropCourse course);
  [[nodiscard]] static CropCalendar yearly(YearlySowing sowing, CropCourse between);
  /// `sowings` in order and not overlapping.
  [[nodiscard]] static CropCalendar dated(std::vector<Sowing> sowings, CropCourse between);

  struct Standing {
    const CropCourse& course;
    int day_of_season = 1;
    std::optional<std::chrono::sys_days> sown = {};  ///< none where nothing was sown
    std::optional<int> days_since_cut = {};          ///< none before the stand's first cut
  };
  [[nodiscard]] Standing on(std::chrono::sys_days date) const;

 private:
  CropCourse between_;  ///< and the permanent stand
  std::optional<YearlySowing> yearly_ = {};
  std::vector<Sowing> sowings_;

  [[nodiscard]] Standing standing(std::chrono::sys_days date) const;
};

}  // namespace gley::model

#include "model/crop/calendar.hpp"

#include <utility>

#include "model/crop/calendar_day.hpp"

namespace gley::model {

CropCalendar CropCalendar::permanent(CropCourse course) {
  CropCalendar calendar;
  calendar.between_ = std::move(course);
  return calendar;
}

CropCalendar CropCalendar::yearly(YearlySowing sowing, CropCourse between) {
  CropCalendar calendar;
  calendar.yearly_ = std::move(sowing);
  calendar.between_ = std::move(between);
  return calendar;
}

CropCalendar CropCalendar::dated(std::vector<Sowing> sowings, CropCourse between) {
  CropCalendar calendar;
  calendar.sowings_ = std::move(sowings);
  calendar.between_ = std::move(between);
  return calendar;
}

CropCalendar::Standing CropCalendar::standing(std::chrono::sys_days date) const {
  const auto grown_since = [date](const CropCourse& course, std::chrono::sys_days sown) {
    return Standing{.course = course,
                    .day_of_season = static_cast<int>((date - sown).count()) + 1,
                    .sown = sown};
  };
  if (yearly_) {
    const std::chrono::year year = std::chrono::year_month_day{date}.year();
    for (const std::chrono::year sown_in : {year, year - std::chrono::years{1}}) {
      const std::chrono::sys_days sown = day_in_year(sown_in, yearly_->sown);
      if (sown <= date && date < sown + yearly_->season) return grown_since(yearly_->course, sown);
    }
  }
  for (const Sowing& sowing : sowings_)
    if (sowing.sown <= date && date < sowing.harvested)
      return grown_since(sowing.course, sowing.sown);
  return {.course = between_};
}

CropCalendar::Standing CropCalendar::on(std::chrono::sys_days date) const {
  Standing today = standing(date);
  if (!today.course.cutting) return today;
  today.days_since_cut = days_since_cut(today.course.cutting->dates, date);
  const bool before_sowing =
      today.sown && date - std::chrono::days{1} * today.days_since_cut.value_or(0) < *today.sown;
  if (before_sowing) today.days_since_cut.reset();
  return today;
}

}  // namespace gley::model

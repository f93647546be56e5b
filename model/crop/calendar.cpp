#include "model/crop/calendar.hpp"

#include <utility>

namespace gley::model {

namespace {

/// A sowing on 29 February is one on 1 March in a common year.
std::chrono::sys_days sowing_day(std::chrono::year year, std::chrono::month_day day) {
  return std::chrono::sys_days{year / day.month() / 1} +
         (std::chrono::days{1} * (unsigned(day.day()) - 1));
}

}  // namespace

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

CropCalendar::Standing CropCalendar::on(std::chrono::sys_days date) const {
  const auto day_since = [date](std::chrono::sys_days sown) {
    return static_cast<int>((date - sown).count()) + 1;
  };
  if (yearly_) {
    const std::chrono::year year = std::chrono::year_month_day{date}.year();
    for (const std::chrono::year sown_in : {year, year - std::chrono::years{1}}) {
      const std::chrono::sys_days sown = sowing_day(sown_in, yearly_->sown);
      if (sown <= date && date < sown + yearly_->season) return {yearly_->course, day_since(sown)};
    }
  }
  for (const Sowing& sowing : sowings_)
    if (sowing.sown <= date && date < sowing.harvested)
      return {sowing.course, day_since(sowing.sown)};
  return {between_, 1};
}

}  // namespace gley::model

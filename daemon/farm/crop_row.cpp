#include "daemon/farm/crop_row.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

template <class T, class Own>
void take(T& value, const Own& own) {
  if (own) value = *own;
}

/// A day of a stage, moved as the whole season is stretched.
int moved(long day, long season, long usual) {
  return static_cast<int>((2 * day * season + usual) / (2 * usual));  // to the nearest day
}

StageDays stretched(const StageDays& stages, long season) {
  const int usual = stages.total();
  if (usual <= 0 || usual == season) return stages;
  const int dev = moved(stages.ini, season, usual);
  const int mid = moved(stages.ini + stages.dev, season, usual);
  const int late = moved(stages.ini + stages.dev + stages.mid, season, usual);
  return {.ini = dev, .dev = mid - dev, .mid = late - mid, .late = static_cast<int>(season) - late};
}

}  // namespace

CropRow row_with(const CropRow& row, const CropOwn& own) {
  CropRow out = row;
  if (!own.cuts.empty()) out.kcb_mid = row.uncut_kcb.value_or(row.kcb_mid);
  take(out.kcb_ini, own.kcb_ini);
  take(out.kcb_mid, own.kcb_mid);
  take(out.kcb_end, own.kcb_end);
  if (row.kind == CropKind::grass) out.kcb_ini = out.kcb_end = out.kcb_mid;
  take(out.height_m, own.height_m);
  take(out.root_depth_mm, own.root_depth_mm);
  take(out.root_depth_min_mm, own.root_depth_min_mm);
  take(out.depletion_fraction, own.depletion_fraction);
  take(out.cover, own.cover);
  take(out.residue_cover, own.residue_cover);
  take(out.runoff_cover, own.runoff_cover);
  take(out.stages_day_degrees, own.stages_day_degrees);
  take(out.sown, own.sown);
  take(out.harvested, own.harvested);
  take(out.cut_kcb, own.cut_kcb);
  take(out.cut_height_m, own.cut_height_m);
  take(out.cut_cover, own.cut_cover);
  take(out.recovery_days, own.recovery_days);
  // Stages given in days are not to be counted in the row's warmth.
  if (own.stages || !own.stage_dates.empty()) out.stages_day_degrees.reset();
  return out;
}

CropRow row_of(const CropSowing& sowing) {
  return row_with(*reference_tables().crop(sowing.crop), sowing.own);
}

std::optional<std::chrono::year_month_day> usual_harvest(const CropRow& row,
                                                         std::chrono::year_month_day sown) {
  if (!row.harvested) return std::nullopt;
  sys_days harvest = model::day_in_year(sown.year(), *row.harvested);
  if (harvest <= sys_days{sown})
    harvest = model::day_in_year(sown.year() + std::chrono::years{1}, *row.harvested);
  return std::chrono::year_month_day{harvest};
}

std::optional<days> usual_season(const CropRow& row) {
  if (!row.stages) return std::nullopt;
  if (!row.sown || !row.harvested) return days{row.stages->total()};
  constexpr std::chrono::year common_year{2001};
  const sys_days sown = model::day_in_year(common_year, *row.sown);
  return sys_days{*usual_harvest(row, sown)} - sown;
}

std::vector<sys_days> stage_starts(const std::vector<model::CalendarDay>& starts, sys_days sown) {
  const std::chrono::year year = std::chrono::year_month_day{sown}.year();
  std::vector<sys_days> dates;
  for (const model::CalendarDay& start : starts) {
    sys_days date = model::day_in_year(start.year.value_or(year), start.day);
    if (!start.year && date <= sown)
      date = model::day_in_year(year + std::chrono::years{1}, start.day);
    dates.push_back(date);
  }
  return dates;
}

StageDays stages_in(const CropSpan& span, const CropRow& row, const CropOwn& own) {
  if (own.stages) return *own.stages;
  if (!own.stage_dates.empty()) {
    const auto starts = stage_starts(own.stage_dates, span.sown);
    const auto between = [](sys_days from, sys_days to) {
      return static_cast<int>((to - from).count());
    };
    return {.ini = between(span.sown, starts[0]),
            .dev = between(starts[0], starts[1]),
            .mid = between(starts[1], starts[2]),
            .late = between(starts[2], span.harvested)};
  }
  return stretched(row.stages.value_or(StageDays{}), (span.harvested - span.sown).count());
}

}  // namespace gley::daemon

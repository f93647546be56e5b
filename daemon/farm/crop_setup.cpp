#include "daemon/farm/crop_setup.hpp"

#include <algorithm>

#include "daemon/farm/reference_tables.hpp"
#include "model/water/runoff.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;
using std::chrono::year;

constexpr std::string_view between_crops = "stubble";

/// Runoff row of a crop whose owner gave only its numbers: a grass sward in fair condition.
constexpr std::string_view cover_of_numbers = "pasture, fair";

void set_storm_storage(model::CropCourse& course, const CurveNumberRow* row,
                       const FieldConfig& config, const CropGround& ground) {
  course.sheds_storms = !config.textbook && row != nullptr;
  if (!course.sheds_storms) return;
  const model::CurveNumbers numbers =
      model::curve_numbers(row->of_group(ground.hydrologic_group), ground.slope_pct);
  course.storage_dry_mm = model::runoff_storage_mm(numbers.dry);
  // The middle number at field capacity: what a wetter topsoil sheds, the step counts itself when
  // the water finds no room, and the wet number would count it twice (our choice).
  course.storage_wet_mm = model::runoff_storage_mm(numbers.middle);
}

model::CropCourse course_of(const CropRow& row, const FieldConfig& config,
                            const CropGround& ground) {
  model::CropCourse course;
  course.name = row.name;
  course.kcb.coefficients = {.initial = row.kcb_ini, .mid_season = row.kcb_mid, .end = row.kcb_end};
  if (row.stages)
    course.kcb.lengths = {.initial_d = row.stages->ini,
                          .development_d = row.stages->dev,
                          .mid_season_d = row.stages->mid,
                          .late_season_d = row.stages->late};
  course.height_m = row.height_m;
  course.root_max_mm = config.root_depth_mm.value_or(row.root_depth_mm);
  // Seedlings are judged over the whole topsoil: under it lies what the last crop left.
  course.root_min_mm =
      std::min(course.root_max_mm, std::max(row.root_depth_min_mm, model::topsoil_mm));
  if (row.kind == CropKind::bare) course.root_max_mm = course.root_min_mm = model::topsoil_mm;
  course.depletion_fraction = row.depletion_fraction;
  course.cover = row.cover;
  course.climate_adjusted = row.kind != CropKind::bare;
  set_storm_storage(course, reference_tables().runoff_cover(row.runoff_cover), config, ground);
  return course;
}

model::CropCourse course_of(const CropByNumbers& crop, const FieldConfig& config,
                            const CropGround& ground) {
  model::CropCourse course;
  course.name = "crop by numbers";
  course.kcb.coefficients = {.initial = crop.kcb, .mid_season = crop.kcb, .end = crop.kcb};
  course.height_m = crop.height_m;
  course.root_min_mm = course.root_max_mm = crop.root_depth_mm;
  course.depletion_fraction = crop.depletion_fraction;
  course.cover = crop.cover;
  course.climate_adjusted = false;
  set_storm_storage(course, reference_tables().runoff_cover(cover_of_numbers), config, ground);
  return course;
}

model::CropCourse course_named(std::string_view name, const FieldConfig& config,
                               const CropGround& ground) {
  return course_of(*reference_tables().crop(name), config, ground);
}

/// The row of a sowing's crop with what its owner knows better.
CropRow row_of(const CropSowing& sowing) {
  CropRow row = *reference_tables().crop(sowing.crop);
  row.kcb_ini = sowing.kcb_ini.value_or(row.kcb_ini);
  row.kcb_mid = sowing.kcb_mid.value_or(row.kcb_mid);
  row.kcb_end = sowing.kcb_end.value_or(row.kcb_end);
  if (sowing.stages) row.stages = sowing.stages;
  return row;
}

/// A sward stays until something else is sown.
constexpr days until_next_sowing{36500};

/// Days from sowing to harvest: to the row's usual harvest date, else its stages.
days season_of(const CropRow& row) {
  if (!row.stages) return until_next_sowing;
  const days staged{row.stages->total()};
  if (!row.harvested || !row.sown) return staged;
  const year any{2001};
  const sys_days sown{any / *row.sown};
  sys_days harvested{any / *row.harvested};
  if (harvested <= sown) harvested = sys_days{(any + std::chrono::years{1}) / *row.harvested};
  return harvested - sown;
}

sys_days harvest_of(const CropSowing& sowing, sys_days sown) {
  if (sowing.harvested) return sys_days{*sowing.harvested};
  return sown + season_of(row_of(sowing));
}

model::CropCalendar rotation_of(const std::vector<CropSowing>& sowings, const FieldConfig& config,
                                const CropGround& ground) {
  std::vector<model::Sowing> dated;
  for (const CropSowing& sowing : sowings) {
    if (!sowing.sown) continue;
    const sys_days sown{*sowing.sown};
    dated.push_back({.sown = sown,
                     .harvested = harvest_of(sowing, sown),
                     .course = course_of(row_of(sowing), config, ground)});
  }
  std::sort(dated.begin(), dated.end(),
            [](const auto& a, const auto& b) { return a.sown < b.sown; });
  for (std::size_t i = 0; i + 1 < dated.size(); ++i)
    dated[i].harvested = std::min(dated[i].harvested, dated[i + 1].sown);
  return model::CropCalendar::dated(std::move(dated), course_named(between_crops, config, ground));
}

model::CropCalendar every_year(const CropRow& row, const FieldConfig& config,
                               const CropGround& ground) {
  model::CropCourse course = course_of(row, config, ground);
  if (!row.sown || !row.stages) return model::CropCalendar::permanent(std::move(course));
  return model::CropCalendar::yearly(
      {.sown = *row.sown, .season = season_of(row), .course = std::move(course)},
      course_named(between_crops, config, ground));
}

}  // namespace

model::CropCalendar crops_of(const FieldConfig& config, const CropGround& ground) {
  if (const auto* name = std::get_if<std::string>(&config.crop))
    return every_year(*reference_tables().crop(*name), config, ground);
  if (const auto* numbers = std::get_if<CropByNumbers>(&config.crop))
    return model::CropCalendar::permanent(course_of(*numbers, config, ground));
  const auto& sowings = std::get<std::vector<CropSowing>>(config.crop);
  const bool one_without_date = sowings.size() == 1 && !sowings.front().sown;
  return one_without_date ? every_year(row_of(sowings.front()), config, ground)
                          : rotation_of(sowings, config, ground);
}

double deepest_roots_mm(const FieldConfig& config) {
  if (const auto* numbers = std::get_if<CropByNumbers>(&config.crop)) return numbers->root_depth_mm;
  if (config.root_depth_mm) return *config.root_depth_mm;
  if (const auto* name = std::get_if<std::string>(&config.crop))
    return reference_tables().crop(*name)->root_depth_mm;
  double deepest = 0.0;
  for (const CropSowing& sowing : std::get<std::vector<CropSowing>>(config.crop))
    deepest = std::max(deepest, reference_tables().crop(sowing.crop)->root_depth_mm);
  return deepest;
}

}  // namespace gley::daemon

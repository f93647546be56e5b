#include "daemon/farm/crop_setup.hpp"

#include <algorithm>

#include "daemon/farm/crop_row.hpp"
#include "daemon/farm/reference_tables.hpp"
#include "model/water/runoff.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr std::string_view between_crops = "stubble";

/// Runoff row of a crop whose owner gave only its numbers: a grass sward in fair condition.
constexpr std::string_view cover_of_numbers = "pasture, fair";

void set_storm_storage(model::CropCourse& course, const CurveNumberRow* row,
                       const FieldConfig& config, char group) {
  course.sheds_storms = !config.textbook && row != nullptr;
  if (!course.sheds_storms) return;
  const model::CurveNumbers numbers = model::curve_numbers(row->of_group(group), config.slope_pct);
  course.storage_dry_mm = model::runoff_storage_mm(numbers.dry);
  // The middle number at field capacity: what a wetter topsoil sheds, the step counts itself when
  // the water finds no room, and the wet number would count it twice (our choice).
  course.storage_wet_mm = model::runoff_storage_mm(numbers.middle);
}

model::StageLengths lengths_of(const StageDays& stages) {
  return {.initial_d = stages.ini,
          .development_d = stages.dev,
          .mid_season_d = stages.mid,
          .late_season_d = stages.late};
}

std::optional<model::HeatStages> heat_of(const std::optional<StageDayDegrees>& stages) {
  if (!stages) return std::nullopt;
  return model::HeatStages{.base_c = stages->base_c,
                           .initial_c_d = stages->ini,
                           .development_c_d = stages->dev,
                           .mid_season_c_d = stages->mid,
                           .late_season_c_d = stages->late};
}

/// Right after a cut, where a sward's row leaves it open: our choice.
std::optional<model::Cutting> cutting_of(const CropRow& row, const CropOwn& own) {
  if (own.cuts.empty()) return std::nullopt;
  return model::Cutting{.dates = own.cuts,
                        .kcb = row.cut_kcb.value_or(0.40),
                        .height_m = row.cut_height_m.value_or(0.06),
                        .cover = row.cut_cover.value_or(0.45),
                        .recovery_d = row.recovery_days.value_or(30)};
}

/// `row` as the owner has changed it.
model::CropCourse course_of(const CropRow& row, const CropOwn& own, const FieldConfig& config,
                            char group) {
  model::CropCourse course;
  course.name = row.name;
  course.kcb.coefficients = {.initial = row.kcb_ini, .mid_season = row.kcb_mid, .end = row.kcb_end};
  if (row.stages) course.kcb.lengths = lengths_of(*row.stages);
  course.heat = heat_of(row.stages_day_degrees);
  course.height_m = row.height_m;
  course.root_max_mm = own.root_depth_mm.value_or(config.root_depth_mm.value_or(row.root_depth_mm));
  course.root_min_mm = std::min(course.root_max_mm, row.root_depth_min_mm);
  // A field's own rooting depth is that of its crops, not of the ground between them.
  if (row.kind == CropKind::bare) course.root_max_mm = course.root_min_mm = row.root_depth_min_mm;
  course.depletion_fraction = row.depletion_fraction;
  course.cover = row.cover;
  course.cutting = cutting_of(row, own);
  course.residue_cover = row.residue_cover;
  course.climate_adjusted = row.kind != CropKind::bare;
  set_storm_storage(course, reference_tables().runoff_cover(row.runoff_cover), config, group);
  return course;
}

model::CropCourse course_of(const CropByNumbers& crop, const FieldConfig& config, char group) {
  model::CropCourse course;
  course.name = "crop by numbers";
  course.kcb.coefficients = {.initial = crop.kcb, .mid_season = crop.kcb, .end = crop.kcb};
  course.height_m = crop.height_m;
  course.root_min_mm = course.root_max_mm = crop.root_depth_mm;
  course.depletion_fraction = crop.depletion_fraction;
  course.cover = crop.cover;
  course.climate_adjusted = false;
  set_storm_storage(course, reference_tables().runoff_cover(cover_of_numbers), config, group);
  return course;
}

model::CropCourse course_named(std::string_view name, const FieldConfig& config, char group) {
  return course_of(*reference_tables().crop(name), {}, config, group);
}

/// A sward stays until something else is sown.
constexpr days until_next_sowing{36500};

/// The row of a sowing that stands from day to day, its stages fitted in.
CropRow row_in(const CropSpan& span, CropRow row, const CropOwn& own) {
  if (row.stages) row.stages = stages_in(span, row, own);
  return row;
}

model::Sowing dated_sowing(const CropSowing& sowing, const FieldConfig& config, char group) {
  const CropRow row = row_of(sowing);
  const sys_days sown{*sowing.sown};
  const sys_days harvested = sowing.harvested
                                 ? sys_days{*sowing.harvested}
                                 : sown + usual_season(row).value_or(until_next_sowing);
  return {
      .sown = sown,
      .harvested = harvested,
      .course = course_of(row_in({sown, harvested}, row, sowing.own), sowing.own, config, group)};
}

model::CropCalendar rotation_of(const std::vector<CropSowing>& sowings, const FieldConfig& config,
                                char group) {
  std::vector<model::Sowing> dated;
  for (const CropSowing& sowing : sowings) {
    if (!sowing.sown) continue;
    dated.push_back(dated_sowing(sowing, config, group));
  }
  std::sort(dated.begin(), dated.end(),
            [](const auto& a, const auto& b) { return a.sown < b.sown; });
  for (std::size_t i = 0; i + 1 < dated.size(); ++i)
    dated[i].harvested = std::min(dated[i].harvested, dated[i + 1].sown);
  return model::CropCalendar::dated(std::move(dated), course_named(between_crops, config, group));
}

model::CropCalendar every_year(const CropSowing& sowing, const FieldConfig& config, char group) {
  const CropOwn& own = sowing.own;
  CropRow row = row_of(sowing);
  const std::optional<days> season = usual_season(row);
  if (!row.sown || !season)
    return model::CropCalendar::permanent(course_of(row, own, config, group));
  // Its own days stand as the table gives them: they end within a week of the usual harvest.
  const bool fitted = own.sown || own.harvested || own.stages || !own.stage_dates.empty();
  const sys_days sown = model::day_in_year(std::chrono::year{2001}, *row.sown);
  if (fitted) row = row_in({sown, sown + *season}, row, own);
  return model::CropCalendar::yearly(
      {.sown = *row.sown, .season = *season, .course = course_of(row, own, config, group)},
      course_named(between_crops, config, group));
}

}  // namespace

model::CropCalendar crops_of(const FieldConfig& config, char group) {
  if (const auto* name = std::get_if<std::string>(&config.crop)) {
    CropSowing sowing;
    sowing.crop = *name;
    return every_year(sowing, config, group);
  }
  if (const auto* numbers = std::get_if<CropByNumbers>(&config.crop))
    return model::CropCalendar::permanent(course_of(*numbers, config, group));
  const auto& sowings = std::get<std::vector<CropSowing>>(config.crop);
  const bool one_without_date = sowings.size() == 1 && !sowings.front().sown;
  return one_without_date ? every_year(sowings.front(), config, group)
                          : rotation_of(sowings, config, group);
}

double deepest_roots_mm(const FieldConfig& config) {
  if (const auto* numbers = std::get_if<CropByNumbers>(&config.crop)) return numbers->root_depth_mm;
  const auto of_row = [&](const CropRow& row) {
    return config.root_depth_mm.value_or(row.root_depth_mm);
  };
  if (const auto* name = std::get_if<std::string>(&config.crop))
    return of_row(*reference_tables().crop(*name));
  double deepest = 0.0;
  for (const CropSowing& sowing : std::get<std::vector<CropSowing>>(config.crop))
    deepest = std::max(deepest, sowing.own.root_depth_mm.value_or(of_row(row_of(sowing))));
  return deepest;
}

}  // namespace gley::daemon

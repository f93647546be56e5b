#include "model/crop/stand.hpp"

#include "model/crop/water_stress.hpp"
#include "model/numeric/elementary.hpp"
#include "model/weather/wind.hpp"

namespace gley::model {

namespace {

struct KcbToday {
  double table = 0.0;     ///< as tabled
  double adjusted = 0.0;  ///< moved to the day's air
};

/// The day of the season as the stages count it.
double stage_day(const CropCourse& course, const SeasonDay& season) {
  if (!course.heat) return season.day;
  return day_by_heat(*course.heat, course.kcb.lengths, season.day_degrees_c_d);
}

double along(double part, double from, double to) {
  return from + part * (to - from);
}

/// How far a sward has come back from its last cut, 0..1.
double regrown(const CropCourse& course, const SeasonDay& season) {
  if (!course.cutting || !season.days_since_cut) return 1.0;
  return least(1.0, static_cast<double>(*season.days_since_cut) / course.cutting->recovery_d);
}

KcbToday kcb_today(const CropCourse& course, double day, const StandAir& air) {
  const double table = stage_coefficient(course.kcb, day);
  if (!course.climate_adjusted) return {table, table};
  const CropClimate climate{air.u2_m_s, air.rh_min_pct, course.height_m};
  SeasonCourse moved = course.kcb;
  moved.coefficients.mid_season = climate_adjusted_mid(moved.coefficients.mid_season, climate);
  moved.coefficients.end = climate_adjusted_end(moved.coefficients.end, climate);
  if (course.lasts_all_year()) {
    const double mid = moved.coefficients.mid_season;
    moved.coefficients = {.initial = mid, .mid_season = mid, .end = mid};
  }
  // Still damp air can take more off a small coefficient than there is; no crop gives off less than
  // 0.
  return {table, greatest(0.0, stage_coefficient(moved, day))};
}

/// Kcb while the canopy still grows, and its mid-season value once it has: what roots and height
/// follow, for neither shrinks before harvest.
double growth_kcb(const CropCourse& course, double day, double kcb_table) {
  const StageLengths& stages = course.kcb.lengths;
  const bool grown = day > stages.initial_d + stages.development_d;
  return grown ? course.kcb.coefficients.mid_season : kcb_table;
}

double height_today_m(const CropCourse& course, double growth) {
  const double mid = course.kcb.coefficients.mid_season;
  if (course.lasts_all_year() || mid <= 0.0) return course.height_m;
  return crop_height_m({.largest_m = course.height_m, .kcb_mid = mid, .kcb_today = growth});
}

double root_depth_today_mm(const CropCourse& course, double growth) {
  if (course.lasts_all_year()) return course.root_max_mm;
  return 1000.0 * root_depth_m({.smallest_m = course.root_min_mm / 1000.0,
                                .largest_m = course.root_max_mm / 1000.0,
                                .kcb_initial = course.kcb.coefficients.initial,
                                .kcb_mid = course.kcb.coefficients.mid_season,
                                .kcb_today = growth});
}

void root(StandDay& stand, const SoilProfile& soil) {
  const ByLayer<double> rooted_mm = thickness_above(soil, stand.root_depth_mm);
  double top_mm = 0.0;
  for (int l = 0; l < max_layers; ++l) {
    const Horizon& h = soil.horizon[l];
    if (soil.thickness_mm[l] <= 0.0) continue;
    stand.rooted_share[l] = rooted_mm[l] / soil.thickness_mm[l];
    stand.rooted_available_mm[l] = total_available_water_mm({.field_capacity = h.field_capacity,
                                                             .wilting_point = h.wilting_point,
                                                             .root_depth_mm = rooted_mm[l]});
    stand.total_available_mm += stand.rooted_available_mm[l];
    const double bottom_mm = top_mm + rooted_mm[l];
    stand.root_share[l] =
        roots_above(bottom_mm / stand.root_depth_mm) - roots_above(top_mm / stand.root_depth_mm);
    top_mm = bottom_mm;
  }
}

}  // namespace

bool CropCourse::lasts_all_year() const {
  const StageLengths& s = kcb.lengths;
  return s.initial_d + s.development_d + s.mid_season_d + s.late_season_d == 0;
}

double roots_above(double relative_depth) {
  return 1.8 * relative_depth - 0.8 * relative_depth * relative_depth;
}

StandDay stand_day(const CropCourse& course, int day_of_season, const StandAir& air,
                   const SoilProfile& soil) {
  return stand_day(course, SeasonDay{.day = day_of_season}, air, soil);
}

StandDay stand_day(const CropCourse& course, const SeasonDay& season, const StandAir& air,
                   const SoilProfile& soil) {
  StandDay stand;
  const double day = stage_day(course, season);
  const double back = regrown(course, season);
  const auto regrowing = [&](double Cutting::*stubble, double grown) {
    return back < 1.0 ? along(back, *course.cutting.*stubble, grown) : grown;
  };
  const KcbToday kcb = kcb_today(course, day, air);
  const double growth = growth_kcb(course, day, kcb.table);
  stand.kcb = regrowing(&Cutting::kcb, kcb.adjusted);
  stand.height_m = regrowing(&Cutting::height_m, height_today_m(course, growth));
  stand.root_depth_mm = least(root_depth_today_mm(course, growth), soil.depth_mm());
  stand.kc_max = largest_coefficient_kc_max(
      {.kcb = stand.kcb,
       .climate = {greatest(least_wind_m_s, air.u2_m_s), air.rh_min_pct, stand.height_m}});
  stand.cover =
      course.cover
          ? regrowing(&Cutting::cover, *course.cover)
          : cover_fraction({.kcb = stand.kcb, .kc_max = stand.kc_max, .height_m = stand.height_m});
  stand.kc_max -= 0.5 * course.residue_cover * (stand.kc_max - stand.kcb);
  stand.depletion_fraction = course.depletion_fraction;
  stand.sheds_storms = course.sheds_storms;
  stand.storage_dry_mm = course.storage_dry_mm;
  stand.storage_wet_mm = course.storage_wet_mm;
  root(stand, soil);
  return stand;
}

}  // namespace gley::model

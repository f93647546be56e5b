// Cuts, warmth and residue in the stand of one day.
#include <catch2/catch.hpp>

#include "model/crop/calendar.hpp"

using namespace gley::model;
using namespace std::chrono;

namespace {

const Horizon loam{.wilting_point = 0.15,
                   .field_capacity = 0.32,
                   .saturation = 0.46,
                   .retention_b = 6.0,
                   .saturated_conductivity_mm_h = 10.0};
const SoilProfile soil = profile_of(loam, loam, 10.0, 1300.0);

/// u2 2 m/s and RHmin 45 %, at which Eq. 70 and 72 change nothing.
constexpr StandAir standard_air{};

CropCourse cut_sward() {
  CropCourse course;
  course.kcb.coefficients = {.initial = 1.0, .mid_season = 1.0, .end = 1.0};
  course.height_m = 0.30;
  course.root_max_mm = 700.0;
  course.cover = 0.95;
  course.cutting = Cutting{.dates = {{.day = May / 25}, {.day = July / 10}},
                           .kcb = 0.40,
                           .height_m = 0.06,
                           .cover = 0.45,
                           .recovery_d = 30};
  return course;
}

StandDay on(const CropCalendar& crops, sys_days date) {
  const CropCalendar::Standing today = crops.on(date);
  return stand_day(today.course,
                   SeasonDay{.day = today.day_of_season, .days_since_cut = today.days_since_cut},
                   standard_air, soil);
}

CropCourse barley() {
  CropCourse course;
  course.kcb.lengths = {
      .initial_d = 20, .development_d = 25, .mid_season_d = 60, .late_season_d = 30};
  course.kcb.coefficients = {.initial = 0.15, .mid_season = 1.10, .end = 0.15};
  course.height_m = 1.0;
  course.root_min_mm = 300.0;
  course.root_max_mm = 1000.0;
  course.heat = HeatStages{.base_c = 0.0,
                           .initial_c_d = 200.0,
                           .development_c_d = 300.0,
                           .mid_season_c_d = 800.0,
                           .late_season_c_d = 500.0};
  return course;
}

}  // namespace

TEST_CASE("a cut takes Kcb, height and cover down, and they come back evenly") {
  const CropCalendar crops = CropCalendar::permanent(cut_sward());
  const StandDay before = on(crops, sys_days{2026y / May / 24});
  CHECK(before.kcb == 1.0);
  CHECK(before.height_m == 0.30);
  CHECK(before.cover == 0.95);
  const StandDay cut = on(crops, sys_days{2026y / May / 25});
  CHECK(cut.kcb == Approx(0.40));
  CHECK(cut.height_m == Approx(0.06));
  CHECK(cut.cover == Approx(0.45));
  // A third of the way, by hand: 0.40 + 10/30 of 0.60; 0.06 + 10/30 of 0.24; 0.45 + 10/30 of 0.50.
  const StandDay third = on(crops, sys_days{2026y / June / 4});
  CHECK(third.kcb == Approx(0.60));
  CHECK(third.height_m == Approx(0.14));
  CHECK(third.cover == Approx(0.616666667));
  CHECK(third.root_depth_mm == 700.0);
  const StandDay back = on(crops, sys_days{2026y / June / 24});
  CHECK(back.kcb == 1.0);
  CHECK(back.cover == 0.95);
  CHECK(on(crops, sys_days{2027y / July / 10}).kcb == Approx(0.40));
}

TEST_CASE("a cut of one year is made in that year alone, and none before the sward is sown") {
  CHECK(days_since_cut({{.year = 2026y, .day = May / 25}}, sys_days{2026y / May / 27}) == 2);
  CHECK_FALSE(days_since_cut({{.year = 2026y, .day = May / 25}}, sys_days{2025y / June / 1}));
  CHECK(days_since_cut({{.day = December / 20}}, sys_days{2027y / January / 4}) == 15);
  CHECK(days_since_cut({{.day = February / 29}}, sys_days{2027y / March / 1}) == 0);
  const CropCalendar crops = CropCalendar::dated(
      {{.sown = 2026y / June / 1, .harvested = 2030y / June / 1, .course = cut_sward()}}, {});
  CHECK_FALSE(crops.on(2026y / June / 5).days_since_cut);
  CHECK(crops.on(2026y / July / 12).days_since_cut == 2);
}

TEST_CASE("warmth carries a stand through its stages, each even in itself") {
  const CropCourse course = barley();
  const auto kcb_after = [&](double warmth) {
    return stand_day(course, SeasonDay{.day = 999, .day_degrees_c_d = warmth}, standard_air, soil)
        .kcb;
  };
  CHECK(kcb_after(200.0) == Approx(0.15));
  CHECK(kcb_after(350.0) == Approx(0.15 + 0.5 * 0.95));   // half of the development stage
  CHECK(kcb_after(1300.0) == Approx(1.10));               // last of mid-season
  CHECK(kcb_after(1550.0) == Approx(1.10 - 0.5 * 0.95));  // half of the late stage
  CHECK(kcb_after(1800.0) == Approx(0.15));
  CHECK(kcb_after(5000.0) == Approx(0.15));
}

TEST_CASE("days and warmth of a season are read off each other") {
  const HeatStages heat{.base_c = 0.0,
                        .initial_c_d = 100.0,
                        .development_c_d = 200.0,
                        .mid_season_c_d = 300.0,
                        .late_season_c_d = 100.0};
  const StageLengths days{
      .initial_d = 10, .development_d = 20, .mid_season_d = 30, .late_season_d = 10};
  CHECK(day_by_heat(heat, days, 150.0) == Approx(15.0));
  CHECK(heat_by_day(heat, days, 15.0) == Approx(150.0));
  CHECK(day_by_heat(heat, days, 9000.0) == Approx(70.0));
  CHECK(heat_by_day(heat, days, 0.0) == 0.0);
  CHECK(warmth_of_day_c_d({.tmin_c = 9.0, .tmax_c = 16.0}, 5.0) == 7.5);
  CHECK(warmth_of_day_c_d({.tmin_c = -7.0, .tmax_c = 1.0}, 0.0) == 0.0);
}

TEST_CASE("residue holds evaporation back by 5 % for each 10 % covered (FAO-56 p. 198)") {
  CropCourse bare;
  bare.climate_adjusted = false;
  const double open = stand_day(bare, 1, standard_air, soil).kc_max;
  bare.residue_cover = 0.6;
  CHECK(stand_day(bare, 1, standard_air, soil).kc_max == Approx(0.7 * open));
}

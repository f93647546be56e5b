#include <catch2/catch.hpp>
#include <cmath>

#include "model/crop/coefficients.hpp"
#include "model/crop/surface_evaporation.hpp"
#include "model/crop/water_stress.hpp"

// What no published example touches, by hand.
namespace gley::model {
namespace {

const SeasonCourse beans{
    .lengths = {.initial_d = 25, .development_d = 25, .mid_season_d = 30, .late_season_d = 20},
    .coefficients = {.initial = 0.15, .mid_season = 1.15, .end = 0.35}};

double adjusted(double table_kc, const CropClimate& climate) {
  return climate_adjusted_mid(table_kc, climate);
}

}  // namespace

TEST_CASE("a coefficient keeps its fixed values outside and at the ends of the stages") {
  CHECK(stage_coefficient(beans, -3) == 0.15);
  CHECK(stage_coefficient(beans, 1) == 0.15);
  CHECK(stage_coefficient(beans, 25) == 0.15);
  CHECK(stage_coefficient(beans, 26) == Approx(0.19));
  CHECK(stage_coefficient(beans, 50) == Approx(1.15));
  CHECK(stage_coefficient(beans, 80) == 1.15);
  CHECK(stage_coefficient(beans, 81) == Approx(1.11));
  CHECK(stage_coefficient(beans, 100) == 0.35);
  CHECK(stage_coefficient(beans, 300) == 0.35);
}

TEST_CASE("a stage of no days is passed at once") {
  SeasonCourse course = beans;
  course.lengths.development_d = 0;
  course.lengths.late_season_d = 0;
  CHECK(stage_coefficient(course, 25) == 0.15);
  CHECK(stage_coefficient(course, 26) == 1.15);
  CHECK(stage_coefficient(course, 55) == 1.15);
  CHECK(stage_coefficient(course, 56) == 0.35);
}

TEST_CASE("the climate adjustment stays within the limits of Eq. 70") {
  const double at_3_m = 0.04 * 4.0 + 0.004 * 25.0;  // u2 6 m/s, RHmin 20 %
  CHECK(adjusted(1.0, {.u2_m_s = 9.0, .rh_min_pct = 5.0, .height_m = 3.0}) == Approx(1 + at_3_m));
  CHECK(adjusted(1.0, {.u2_m_s = 0.2, .rh_min_pct = 95.0, .height_m = 3.0}) ==
        Approx(1.0 - 0.04 - 0.14));
  CHECK(adjusted(1.0, {.u2_m_s = 6.0, .rh_min_pct = 20.0, .height_m = 20.0}) ==
        Approx(1.0 + at_3_m * std::pow(10.0 / 3.0, 0.3)));
  CHECK(adjusted(1.0, {.u2_m_s = 6.0, .rh_min_pct = 20.0, .height_m = 0.09}) == 1.0);
  CHECK(adjusted(1.0, {.u2_m_s = 6.0, .rh_min_pct = 20.0, .height_m = 0.1}) > 1.0);
}

TEST_CASE("an end value is adjusted from 0.45 up") {
  const CropClimate windy{.u2_m_s = 4.0, .rh_min_pct = 45.0, .height_m = 3.0};
  CHECK(climate_adjusted_end(0.44, windy) == 0.44);
  CHECK(climate_adjusted_end(0.45, windy) == Approx(0.53));
}

TEST_CASE("Kcmax takes wind and humidity as they are and stays over Kcb") {
  CHECK(largest_coefficient_kc_max(
            {.kcb = 0.3, .climate = {.u2_m_s = 8.0, .rh_min_pct = 10.0, .height_m = 3.0}}) ==
        Approx(1.2 + 0.24 + 0.14));
  CHECK(largest_coefficient_kc_max(
            {.kcb = 1.3, .climate = {.u2_m_s = 2.0, .rh_min_pct = 45.0, .height_m = 1.0}}) ==
        Approx(1.35));
  CHECK(largest_coefficient_kc_max({.kcb = 0.0, .climate = {}}) == 1.2);
}

TEST_CASE("cover lies between a trace and 0.99") {
  CHECK(cover_fraction({.kcb = 0.0, .kc_min = 0.15, .kc_max = 1.15}) == Approx(0.01));
  CHECK(cover_fraction({.kcb = 1.2, .kc_min = 0.15, .kc_max = 1.2}) == 0.99);
  CHECK(cover_fraction({.kcb = 0.65, .kc_min = 0.15, .kc_max = 1.15, .height_m = 2.0}) ==
        Approx(0.25));
}

TEST_CASE("roots and height follow Kcb and height never falls") {
  RootGrowth roots{.smallest_m = 0.15,
                   .largest_m = 1.2,
                   .kcb_initial = 0.15,
                   .kcb_mid = 1.15,
                   .kcb_today = 0.65};
  CHECK(root_depth_m(roots) == Approx(0.675));
  roots.kcb_today = 1.15;
  CHECK(root_depth_m(roots) == Approx(1.2));
  roots.kcb_today = 0.05;
  CHECK(root_depth_m(roots) == Approx(0.15));
  CHECK(crop_height_m({.largest_m = 1.0, .kcb_mid = 1.1, .kcb_today = 0.55}) == Approx(0.5));
  CHECK(crop_height_m({.largest_m = 1.0, .kcb_mid = 1.1, .kcb_today = 1.2}) == 1.0);
}

TEST_CASE("Kr falls from 1 at REW to 0 at TEW") {
  EvaporationLayer<double> layer{
      .depletion_mm = 9.0, .readily_evaporable_mm = 9.0, .totally_evaporable_mm = 20.0};
  CHECK(evaporation_reduction_kr(layer) == 1.0);
  layer.depletion_mm = 14.5;
  CHECK(evaporation_reduction_kr(layer) == Approx(0.5));
  layer.depletion_mm = 20.0;
  CHECK(evaporation_reduction_kr(layer) == 0.0);
  layer.depletion_mm = 21.0;
  CHECK(evaporation_reduction_kr(layer) == 0.0);
}

TEST_CASE("p moves by 0.04 for each mm of ETc and stays within 0.1 and 0.8") {
  CHECK(adjusted_depletion_fraction<double>({.table_p = 0.55, .unstressed_etc_mm = 5.0}) == 0.55);
  CHECK(adjusted_depletion_fraction<double>({.table_p = 0.55, .unstressed_etc_mm = 3.0}) ==
        Approx(0.63));
  CHECK(adjusted_depletion_fraction<double>({.table_p = 0.7, .unstressed_etc_mm = 0.0}) == 0.8);
  CHECK(adjusted_depletion_fraction<double>({.table_p = 0.2, .unstressed_etc_mm = 9.0}) == 0.1);
}

TEST_CASE("Ks falls from 1 at RAW to 0 at TAW") {
  RootZone<double> zone{
      .depletion_mm = 40.0, .total_available_mm = 100.0, .depletion_fraction = 0.4};
  CHECK(stress_coefficient_ks(zone) == 1.0);
  zone.depletion_mm = 70.0;
  CHECK(stress_coefficient_ks(zone) == Approx(0.5));
  zone.depletion_mm = 100.0;
  CHECK(stress_coefficient_ks(zone) == 0.0);
  zone.depletion_mm = 101.0;
  CHECK(stress_coefficient_ks(zone) == 0.0);
}

}  // namespace gley::model

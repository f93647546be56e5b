// Where water stands and where roots find it: what the layered field does beyond one bucket.
#include "model/water/field_step.hpp"

#include <catch2/catch.hpp>

using namespace gley::model;

namespace {

const Horizon loam{.wilting_point = 0.15,
                   .field_capacity = 0.32,
                   .saturation = 0.46,
                   .retention_b = 6.0,
                   .saturated_conductivity_mm_h = 10.0};

FieldParameters drained(DrainageClass drainage) {
  FieldDescription field;
  field.soil = profile_of(loam, loam, 10.0, 1300.0);
  field.drainage = drainage;
  return field_parameters(field);
}

/// A closed sward that sheds no storms.
StandDay sward(const SoilProfile& soil, double root_depth_mm) {
  CropCourse course;
  course.kcb.coefficients = {.initial = 1.0, .mid_season = 1.0, .end = 1.0};
  course.root_max_mm = root_depth_mm;
  course.cover = 0.99;
  course.climate_adjusted = false;
  course.sheds_storms = false;
  return stand_day(course, 1, {}, soil);
}

DayForcing<double> weather(double water_mm, double et0_mm) {
  DayForcing<double> day;
  day.water_mm = water_mm;
  day.et0_mm = et0_mm;
  return day;
}

}  // namespace

TEST_CASE("Water that drains below the roots does not keep them at field capacity") {
  const FieldParameters field = drained(DrainageClass::moderate);
  const StandDay grass = sward(field.soil, 500.0);
  FieldWater<double> water;
  water.excess_mm[5] = 30.0;  // of rain some days ago, at 1 to 1.3 m
  const DayFluxes<double> out = field_step(field, grass, weather(0.0, 3.0), water);
  CHECK(out.drainage_mm == Approx(10.0));  // the moderate outlet, Schulte et al. (2005)
  CHECK(depletion_mm(grass, water) == Approx(out.evaporation_mm + out.transpiration_mm));
  CHECK(depletion_mm(grass, water) > 2.9);
}

TEST_CASE("Rain of the day is evaporated before it percolates (FAO-56 Eq. 88)") {
  const FieldParameters field = drained(DrainageClass::free);
  const StandDay grass = sward(field.soil, 500.0);
  FieldWater<double> water;
  field_step(field, grass, weather(8.0, 3.0), water);
  CHECK(depletion_mm(grass, water) == Approx(0.0).margin(1e-9));
}

TEST_CASE("What roots take from a depth does not depend on where the layers are cut") {
  SoilProfile finer = profile_of(loam, loam, 10.0, 1300.0);
  finer.thickness_mm = {100.0, 100.0, 100.0, 200.0, 200.0, 600.0};
  FieldDescription description;
  description.soil = finer;
  const FieldParameters fine = field_parameters(description);
  const FieldParameters coarse = drained(DrainageClass::moderate);
  FieldWater<double> in_fine;
  FieldWater<double> in_coarse;
  field_step(fine, sward(fine.soil, 700.0), weather(0.0, 5.0), in_fine);
  field_step(coarse, sward(coarse.soil, 700.0), weather(0.0, 5.0), in_coarse);
  CHECK(in_fine.excess_mm[0] == Approx(in_coarse.excess_mm[0]));
  CHECK(in_fine.excess_mm[1] + in_fine.excess_mm[2] == Approx(in_coarse.excess_mm[1]));
  CHECK(in_fine.excess_mm[3] == Approx(in_coarse.excess_mm[2]));
}

TEST_CASE("A slow layer lets a dry subsoil fill and holds water over a full one") {
  const FieldParameters field = drained(DrainageClass::poor);
  const StandDay grass = sward(field.soil, 500.0);
  FieldWater<double> dry_below;
  dry_below.excess_mm[2] = -15.0;
  FieldWater<double> full_below;
  field_step(field, grass, weather(30.0, 0.0), dry_below);
  field_step(field, grass, weather(30.0, 0.0), full_below);
  CHECK(dry_below.excess_mm[2] == Approx(0.0).margin(0.001));
  CHECK(topsoil_fill(field, full_below) * field.topsoil_room_mm == Approx(29.5));
  CHECK(topsoil_fill(field, dry_below) * field.topsoil_room_mm == Approx(14.5));
}

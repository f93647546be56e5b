#include "model/ground/ground_state.hpp"

#include <catch2/catch.hpp>

using namespace gley::model;

namespace {

constexpr Horizon topsoil{.wilting_point = 0.17,
                          .field_capacity = 0.35,
                          .saturation = 0.47,
                          .retention_b = 6.0,
                          .saturated_conductivity_mm_h = 5.0};
constexpr Horizon subsoil{.wilting_point = 0.17,
                          .field_capacity = 0.30,
                          .saturation = 0.40,
                          .retention_b = 6.0,
                          .saturated_conductivity_mm_h = 5.0};

Field field_of_depth(double depth_mm) {
  FieldDescription description;
  description.soil = profile_of(topsoil, subsoil, 26.0, depth_mm);
  Field field;
  field.parameters = field_parameters(description);
  return field;
}

FieldDay some_day() {
  FieldDay day;
  day.rain_mm = 4.0;
  day.suction_topsoil_kpa = 12.0;
  day.suction_subsoil_kpa = 15.0;
  day.topsoil_deficit_mm = 6.0;
  day.evening.water.excess_mm = {-2.0, -4.0, -6.0, -2.0, 0.0, 0.0};
  return day;
}

}  // namespace

TEST_CASE("the ground's subsoil is the soil from 300 to 700 mm") {
  const GroundState<double> ground = ground_state(field_of_depth(1300.0), some_day(), {});
  CHECK(ground.subsoil_saturation == Approx((0.30 - 8.0 / 400.0) / 0.40));
  CHECK(ground.subsoil_saturation_at_capacity == Approx(0.30 / 0.40));
  CHECK(ground.suction_topsoil_kpa == 12.0);
  CHECK(ground.suction_subsoil_kpa == 15.0);
  CHECK(ground.topsoil_deficit_mm == 6.0);
  CHECK(ground.clay_pct == 26.0);
}

TEST_CASE("a soil that ends with the topsoil stands on it") {
  const GroundState<double> ground = ground_state(field_of_depth(300.0), some_day(), {});
  CHECK(ground.subsoil_saturation == Approx((0.35 - 6.0 / 300.0) / 0.47));
  CHECK(ground.subsoil_saturation_at_capacity == Approx(0.35 / 0.47));
}

TEST_CASE("rain of the last 24 hours takes the place of the day's where it is known") {
  const Field field = field_of_depth(1300.0);
  CHECK(ground_state(field, some_day(), {}).rain_24h_mm == 4.0);
  CHECK(ground_state(field, some_day(), {.rain_24h_mm = 11.0}).rain_24h_mm == 11.0);
}

TEST_CASE("the first day without frost after one with it is a thaw") {
  const Field field = field_of_depth(1300.0);
  FieldDay day = some_day();
  CHECK(ground_state(field, day, {.frozen = true}).thaw == 1.0);
  CHECK(ground_state(field, day, {.frozen = false}).thaw == 0.0);
  day.ground.frozen = true;
  CHECK(ground_state(field, day, {.frozen = true}).thaw == 0.0);
}

TEST_CASE("only frost that seals the ground carries, and thaws while it gives") {
  const Field field = field_of_depth(1300.0);
  FieldDay day = some_day();
  day.ground.frozen = true;
  CHECK(ground_state(field, day, {}).deep_frost == 0.0);
  day.ground.sealed = true;
  CHECK(ground_state(field, day, {}).deep_frost == 1.0);
  day.ground.frozen = false;
  CHECK(ground_state(field, day, {}).deep_frost == 0.0);
  CHECK(ground_state(field, day, {}).thaw == 1.0);
}

TEST_CASE("ground under standing water is waterlogged") {
  const Field field = field_of_depth(1300.0);
  FieldDay day = some_day();
  CHECK(ground_state(field, day, {}).waterlogged == 0.0);
  day.evening.water.pond_mm = 0.5;
  CHECK(ground_state(field, day, {}).waterlogged == 1.0);
  CHECK(ground_state(field, day, {}).pond_mm == 0.5);
}

// Soil water from texture against the tables it was published with.
#include <catch2/catch.hpp>
#include <string>
#include <vector>

#include "daemon/farm/reference_tables.hpp"
#include "model/soil/profile.hpp"
#include "model/soil/retention.hpp"
#include "model/soil/suction.hpp"
#include "model/soil/texture_class.hpp"

using namespace gley::model;

namespace {

struct TextureRow {
  std::string name;
  double sand_pct, clay_pct;
  double wilting_vol_pct, capacity_33_vol_pct, saturation_vol_pct, conductivity_mm_h;
};

}  // namespace

TEST_CASE("Saxton and Rawls (2006) Table 3: twelve texture classes at 2.5 % organic matter") {
  // Sandy clay and clay from memory.
  const std::vector<TextureRow> rows{{"sand", 88, 5, 5, 10, 46, 108.1},
                                     {"loamy sand", 80, 5, 5, 12, 46, 96.7},
                                     {"sandy loam", 65, 10, 8, 18, 45, 50.3},
                                     {"loam", 40, 20, 14, 28, 46, 15.5},
                                     {"silt loam", 20, 15, 11, 31, 48, 16.1},
                                     {"silt", 10, 5, 6, 30, 48, 22.0},
                                     {"sandy clay loam", 60, 25, 17, 27, 43, 11.3},
                                     {"clay loam", 30, 35, 22, 36, 48, 4.3},
                                     {"silty clay loam", 10, 35, 22, 38, 51, 5.7},
                                     {"silty clay", 10, 45, 27, 41, 52, 3.7},
                                     {"sandy clay", 50, 40, 25, 36, 44, 1.4},
                                     {"clay", 25, 50, 30, 42, 50, 1.1}};
  for (const TextureRow& row : rows) {
    INFO(row.name);
    const Retention soil = retention_from_texture(
        {.sand_pct = row.sand_pct, .clay_pct = row.clay_pct, .organic_pct = 2.5});
    CHECK(100.0 * soil.wilting_point == Approx(row.wilting_vol_pct).margin(0.51));
    CHECK(100.0 * soil.theta_33 == Approx(row.capacity_33_vol_pct).margin(0.51));
    CHECK(100.0 * soil.saturation == Approx(row.saturation_vol_pct).margin(0.51));
    // The print rounds to 0.1; the coefficients are rounded too, which tells most in clay.
    CHECK(soil.saturated_conductivity_mm_h ==
          Approx(row.conductivity_mm_h).epsilon(0.04).margin(0.05));
  }
}

TEST_CASE("Saxton and Rawls (2006) Table 1: a loam worked through") {
  // An independent calculation of the same equations, four digits.
  const Texture loam{.sand_pct = 40.0, .clay_pct = 20.0, .organic_pct = 2.5};
  const Retention natural = retention_from_texture(loam);
  CHECK(natural.wilting_point == Approx(0.1370).margin(5e-5));
  CHECK(natural.theta_33 == Approx(0.2796).margin(5e-5));
  CHECK(natural.saturation == Approx(0.4595).margin(5e-5));
  CHECK(natural.b == Approx(5.351).margin(5e-4));
  CHECK(natural.saturated_conductivity_mm_h == Approx(15.48).margin(5e-3));
}

TEST_CASE("Soil Survey of England and Wales triangle: the middle of each class is of that class") {
  for (const auto& row : gley::daemon::reference_tables().soils) {
    INFO(row.name);
    CHECK(texture_class({.sand_pct = row.sand_pct, .clay_pct = row.clay_pct}) == row.name);
  }
}

TEST_CASE("Class soils follow Saxton and Rawls (2006) with the sand limit moved to 50 um") {
  for (const auto& row : gley::daemon::reference_tables().soils) {
    INFO(row.name);
    const Retention soil = retention_from_texture(with_american_sand_limit(
        {.sand_pct = row.sand_pct, .clay_pct = row.clay_pct, .organic_pct = row.organic_pct}));
    CHECK(row.wilting_point == Approx(soil.wilting_point).margin(6e-4));
    CHECK(row.saturation == Approx(soil.saturation).margin(6e-4));
    CHECK(row.retention_b == Approx(soil.b).margin(6e-3));
    CHECK(row.field_capacity == Approx(row.wilting_point + row.available_water).margin(1e-9));
  }
}

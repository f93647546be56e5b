#include <catch2/catch.hpp>
#include <cmath>

#include "model/spreading/leaching.hpp"

using namespace gley::model;

TEST_CASE("share leached after Burns (1975), exponential form of Scotter et al. (1993)") {
  struct Row {
    double drainage_mm, field_capacity, depth_mm;
    double from_surface;
  };
  const Row rows[] = {{50, 0.30, 300, 0.1653},
                      {100, 0.30, 300, 0.4066},
                      {200, 0.30, 300, 0.6376},
                      {100, 0.20, 600, 0.3012},
                      {150, 0.40, 900, 0.0907}};
  for (const Row& row : rows) {
    INFO(row.drainage_mm << " mm through " << row.depth_mm << " mm, printed to 0.0001");
    const Percolation water{.drainage_mm = row.drainage_mm,
                            .depth_mm = row.depth_mm,
                            .field_capacity = row.field_capacity};
    CHECK(std::fabs(share_leached_from_surface(water) - row.from_surface) <= 0.00005);
  }
}

TEST_CASE("40 mm of drainage moves 7 % of a dressing past 300 mm of clay loam (Burns 1975)") {
  const Percolation water{.drainage_mm = 40.0, .depth_mm = 300.0, .field_capacity = 0.352};
  CHECK(std::fabs(share_leached_from_surface(water) - 0.07) <= 0.005);
}

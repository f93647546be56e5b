#include "model/spreading/nitrogen_at_risk.hpp"

#include <catch2/catch.hpp>

#include "model/spreading/buffer_area.hpp"

using namespace gley::model;

// 100 mm of drainage through 300 mm at field capacity 0.30 leaches 0.4066 of a dressing: Burns
// (1975) in the form of Scotter et al. (1993). 4.5 mm through a layer of 4.5 mm: 1 - 1/e = 0.6321.
TEST_CASE("nitrogen at risk is what would leach of what runoff leaves") {
  const Dressing dressing{.n_kg_ha = 50.0, .topsoil_field_capacity = 0.30};
  const auto drained = nitrogen_at_risk(dressing, {.drainage_7d_mm = 100.0}, {});
  CHECK(drained.leached_kg_ha == Approx(20.33).margin(0.005));
  CHECK(drained.runoff_kg_ha == 0.0);
  const auto both = nitrogen_at_risk(dressing, {.runoff_48h_mm = 4.5, .drainage_7d_mm = 100.0}, {});
  CHECK(both.runoff_kg_ha == Approx(31.606).margin(0.005));
  CHECK(both.leached_kg_ha == Approx(0.4066 * (50.0 - 31.606)).margin(0.005));
  CHECK(both.total_kg_ha() < 50.0);
  CHECK(nitrogen_at_risk(dressing, {}, {}).total_kg_ha() == 0.0);
}

TEST_CASE("a buffer takes a strip along water, and a segment of a circle round a spring") {
  CHECK(strip_ha({.distance_m = 2.0, .needed_m = 10.0}, 500.0) == Approx(0.4));
  CHECK(!strip_ha({.distance_m = 2.0, .needed_m = 10.0}, {}));
  CHECK(piece_ha({.distance_m = 0.0, .needed_m = 50.0}) == Approx(0.3927).margin(5e-5));
  CHECK(piece_ha({.distance_m = 50.0, .needed_m = 50.0}) == 0.0);
}

#include "model/water/wetness.hpp"

#include <catch2/catch.hpp>

namespace gley::model {
namespace {

/// 60 mm in reach of the roots, of which 40 are gone from the topsoil.
StandDay stand_of(double kcb) {
  StandDay stand;
  stand.kcb = kcb;
  stand.rooted_available_mm[0] = 60.0;
  stand.total_available_mm = 60.0;
  return stand;
}

FieldWater<double> dry_water() {
  FieldWater<double> water;
  water.excess_mm[0] = -40.0;
  return water;
}

}  // namespace

TEST_CASE("a crop is short of water once more than p of TAW is gone, bare ground never") {
  CHECK(wetness_of(stand_of(1.1), dry_water(), 0.5) == Wetness::short_of_water);
  CHECK(wetness_of(stand_of(1.1), dry_water(), 0.7) == Wetness::moist);
  CHECK(wetness_of(stand_of(0.0), dry_water(), 0.5) == Wetness::moist);
}

}  // namespace gley::model

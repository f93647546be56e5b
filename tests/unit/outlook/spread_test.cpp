#include "model/outlook/spread.hpp"

#include <catch2/catch.hpp>

using gley::model::spread_of;

TEST_CASE("a spread tells what one in ten, half and nine in ten members stay under") {
  // By hand after Hyndman and Fan (1996), definition 7: place = share * (n - 1).
  const auto eleven = spread_of({10, 3, 5, 0, 1, 9, 2, 4, 8, 6, 7});
  CHECK(eleven.low == Approx(1.0));
  CHECK(eleven.middle == Approx(5.0));
  CHECK(eleven.high == Approx(9.0));
  const auto two = spread_of({2.0, 1.0});
  CHECK(two.low == Approx(1.1));
  CHECK(two.middle == Approx(1.5));
  CHECK(two.high == Approx(1.9));
}

TEST_CASE("one member has no spread") {
  const auto one = spread_of({4.2});
  CHECK(one.low == 4.2);
  CHECK(one.middle == 4.2);
  CHECK(one.high == 4.2);
}

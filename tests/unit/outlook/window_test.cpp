#include "model/outlook/window.hpp"

#include <catch2/catch.hpp>

#include "model/outlook/chance.hpp"

using namespace gley::model;

TEST_CASE("a window is every run of days likely enough, with its least likely day") {
  const double chances[] = {0.9, 0.6, 0.59, 0.2, 0.7, 0.8};
  CHECK(windows(chances, 0.6) == std::vector<DayWindow>{{.first = 0, .end = 2, .chance = 0.6},
                                                        {.first = 4, .end = 6, .chance = 0.7}});
  CHECK(windows(chances, 0.95).empty());
  CHECK(windows({}, 0.6).empty());
}

TEST_CASE("no number of members makes certain") {
  CHECK(chance_of({.happened = 0, .members = 50}) > 0.0);
  CHECK(chance_of({.happened = 50, .members = 50}) < 1.0);
}

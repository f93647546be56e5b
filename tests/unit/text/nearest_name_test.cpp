#include "daemon/text/nearest_name.hpp"

#include <catch2/catch.hpp>

using gley::daemon::nearest_name;

namespace {
const std::vector<std::string> soils{"sand", "sandy loam", "clay loam", "clay", "silty clay loam"};
}

TEST_CASE("a slip of the keyboard finds the name that was meant") {
  CHECK(nearest_name("clay laom", soils) == "clay loam");
  CHECK(nearest_name("sandyloam", soils) == "sandy loam");
  CHECK(nearest_name("cla", soils) == "clay");
}

TEST_CASE("capital letters do not make a name unlike") {
  CHECK(nearest_name("Clay Loam", soils) == "clay loam");
}

TEST_CASE("a name like none gets no suggestion") {
  CHECK_FALSE(nearest_name("peat", soils).has_value());
  CHECK_FALSE(nearest_name("", soils).has_value());
  CHECK_FALSE(nearest_name("clay", {}).has_value());
}

TEST_CASE("a very long name is not compared") {
  CHECK_FALSE(nearest_name(std::string(100000, 'c'), soils).has_value());
}

TEST_CASE("one word of a name finds it, where no other has the word") {
  const std::vector<std::string> kinds{"mineral fertiliser", "slurry", "solid manure", "spray"};
  CHECK(nearest_name("fertilizer", kinds) == "mineral fertiliser");
  CHECK(nearest_name("manure", kinds) == "solid manure");
  CHECK(nearest_name("London", {"Europe/Berlin", "Europe/London"}) == "Europe/London");
  CHECK(nearest_name("slope", {"id", "slope_pct"}) == "slope_pct");
  CHECK(nearest_name("temp", {"rain", "temperature"}) == "temperature");
  CHECK(nearest_name("rainfall", {"rain", "temperature"}) == "rain");
  CHECK_FALSE(nearest_name("wheat", {"winter wheat", "spring wheat"}).has_value());
  CHECK_FALSE(nearest_name("pct", {"slope_pct"}).has_value());
}

TEST_CASE("the first of equally near names is chosen") {
  CHECK(nearest_name("bat", {"cat", "hat"}) == "cat");
}

#include "daemon/farm/nearest_name.hpp"

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

TEST_CASE("the first of equally near names is chosen") {
  CHECK(nearest_name("bat", {"cat", "hat"}) == "cat");
}

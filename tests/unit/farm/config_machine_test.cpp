#include <catch2/catch.hpp>

#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::daemon;
using namespace gley::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

TEST_CASE("machines have limits of load and pressure") {
  const std::string machine = least_farm() + "[[machine]]\nid = \"a\"\n";
  CHECK_THAT(problem_of(machine + "tyre_pressure_bar = 1\nwheel_load_t = 20.5\n"),
             StartsWith("farm.toml:22: [[machine]] 'a': wheel_load_t is 20.5; it must be above 0 "
                        "and at most 20 t"));
  CHECK_THAT(
      problem_of(machine + "wheel_load_t = 1\ntyre_pressure_bar = 0\n"),
      StartsWith("farm.toml:22: [[machine]] 'a': tyre_pressure_bar is 0; it must be above "));
  CHECK_THAT(problem_of(machine + "wheel_load_t = 1\ntyre_pressure_bar = 12\n"),
             Contains("at most 10 bar"));
  CHECK_THAT(problem_of(machine + "wheel_load_t = 3\ntyre_pressure_bar = 1\nmass_t = 2\n"),
             StartsWith("farm.toml:23: [[machine]] 'a': mass_t is 2 and wheel_load_t 3"));
}

TEST_CASE("a wheel's load may be worked out from mass, axle share and tyres") {
  const std::string machine = least_farm() + "[[machine]]\nid = \"a\"\ntyre_pressure_bar = 1.5\n";
  const FarmConfig farm = farm_of(machine +
                                  "mass_t = 16\naxle_share = 0.5\naxle_tyres = 2\n"
                                  "empty_mass_t = 6\n");
  CHECK(farm.machines.front().wheel_load_t == 4.0);
  CHECK(farm.machines.front().empty_wheel_load_t == 1.5);
  for (const auto& [lines, words] : std::vector<std::pair<std::string, std::string>>{
           {"mass_t = 16\naxle_share = 0.5\naxle_tyres = 0\n",
            "farm.toml:24: [[machine]] 'a': axle_tyres is 0; it must be from 1 to 16"},
           {"mass_t = 16\naxle_share = 0.5\n",
            "farm.toml:23: [[machine]] 'a': axle_share stands without axle_tyres"},
           {"axle_share = 0.5\naxle_tyres = 2\n",
            "farm.toml:22: [[machine]] 'a': axle_share stands without mass_t"},
           {"wheel_load_t = 2\nmass_t = 16\naxle_share = 0.5\naxle_tyres = 2\n",
            "farm.toml:22: [[machine]] 'a': wheel_load_t stands beside axle_share"},
           {"mass_t = 90\naxle_share = 0.5\naxle_tyres = 2\n",
            "farm.toml:23: [[machine]] 'a': axle_share and mass_t 90 give 22.5 t on one wheel; it "
            "must be at most 20 t"},
           {"wheel_load_t = 2\nempty_wheel_load_t = 3\n",
            "farm.toml:23: [[machine]] 'a': empty_wheel_load_t is 3 and wheel_load_t 2"},
           {"", "farm.toml:19: [[machine]] 'a': wheel_load_t is missing"}}) {
    INFO(lines);
    CHECK_THAT(problem_of(machine + lines), StartsWith(words));
  }
}

TEST_CASE("a machine may be one of the reference table's") {
  const std::string machine = least_farm() + "[[machine]]\nid = \"a\"\n";
  const MachineConfig tanker =
      farm_of(machine + "class = \"slurry tanker, full\"\ntyre_pressure_bar = 1.2\n")
          .machines.front();
  CHECK(tanker.wheel_load_t == 4.0);
  CHECK(tanker.tyre_pressure_bar == 1.2);
  CHECK(tanker.empty_wheel_load_t == 1.2);
  CHECK(farm_of(machine + "class = \"stock: cattle\"\n").machines.front().tread ==
        gley::model::Tread::hooves);
  CHECK_THAT(problem_of(machine + "class = \"slury tanker, full\"\n"),
             Contains("there is no such machine class; did you mean \"slurry tanker, full\"?"));
}

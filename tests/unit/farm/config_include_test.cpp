#include <catch2/catch.hpp>

#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::daemon;
using namespace gley::test;
using Lines = std::vector<std::string>;
using Catch::Matchers::StartsWith;

TEST_CASE("included files add to the farm, their paths relative to themselves") {
  const ConfigDirectory directory;
  directory.write("farm.toml",
                  "include = [\"parts/fields.toml\", \"machines.toml\"]\n" + least_farm());
  directory.write("parts/fields.toml", "include = \"more/low.toml\"\n[store]\npath = \"x.db\"\n");
  directory.write(
      "parts/more/low.toml",
      "[[field]]\nid = \"low\"\nstation = \"yard\"\nsoil = \"clay\"\ncrop = \"peas\"\n");
  directory.write("machines.toml",
                  "[[machine]]\nid = \"drill\"\nwheel_load_t = 1\ntyre_pressure_bar = 1\n");
  const ConfigResult result = directory.read();
  REQUIRE(result.problems.empty());
  REQUIRE(result.farm->fields.size() == 2);
  CHECK(result.farm->fields[1].id == "low");
  CHECK(result.farm->fields[1].place.file == (directory.path() / "parts/more/low.toml").string());
  CHECK(result.farm->machines.size() == 1);
  CHECK(result.farm->store.path == directory.path() / "parts/x.db");
}

TEST_CASE("a file that includes itself, or is included twice, is named once") {
  const ConfigDirectory directory;
  directory.write("farm.toml", "include = [\"a.toml\"]\n" + least_farm());
  directory.write("a.toml", "\ninclude = [\"./b.toml\"]\n");
  directory.write("b.toml",
                  "include = [\n  \"farm.toml\",\n  \"a.toml\",\n  \"c.toml\",\n"
                  "  \"c.toml\"\n]\n");
  directory.write("c.toml", "");
  CHECK(directory.problems() ==
        Lines{"b.toml:2: include of farm.toml, which includes this file; remove one include",
              "b.toml:3: include of a.toml, which includes this file; remove one include",
              "b.toml:5: c.toml is included twice, first at b.toml:4; remove one include"});
}

TEST_CASE("a missing or broken include is reported at its line, and no other thing is missed") {
  const ConfigDirectory directory;
  directory.write("farm.toml",
                  "include = [\n\"none.toml\",\n\"broken.toml\"]\n[farm]\nid = \"a\"\n");
  directory.write("broken.toml", "[[field]]\nid = \n");
  const Lines lines = directory.problems();
  REQUIRE(lines.size() == 6);
  CHECK(lines[0] == "farm.toml:2: cannot read none.toml: No such file or directory");
  CHECK_THAT(lines[1], StartsWith("farm.toml:4: [farm]: latitude is missing"));
  CHECK_THAT(lines[5], StartsWith("broken.toml:2: not valid TOML: "));
}

TEST_CASE("problems in an included file carry its name") {
  const ConfigDirectory directory;
  directory.write("farm.toml", "include = \"low.toml\"\n" + least_farm());
  directory.write("low.toml", "\n[farm]\nid = \"other\"\n");
  const Lines lines = directory.problems();
  REQUIRE_FALSE(lines.empty());
  CHECK(lines[0] == "low.toml:2: farm is given twice, first at farm.toml:2; put all into one");
}

TEST_CASE("an include inside a table is explained") {
  CHECK(problems_of(with(least_farm(), "id = \"alder\"", "id = \"alder\"\ninclude = \"x.toml\"")) ==
        Lines{"farm.toml:3: [farm]: include stands in a table; it must stand before the first "
              "table"});
}

TEST_CASE("a wrong include is reported") {
  CHECK(
      problems_of("include = 3\n" + least_farm()) ==
      Lines{"farm.toml:1: include is 3; it must be a text in quotation marks, or a list of them"});
}

TEST_CASE("ids given twice in two files name both") {
  const ConfigDirectory directory;
  directory.write("farm.toml", "include = \"low.toml\"\n" + least_farm());
  directory.write("low.toml", "[[station]]\nid = \"yard\"\n");
  CHECK(directory.problems() ==
        Lines{"low.toml:1: [[station]] 'yard': id is given twice, first at farm.toml:9; give each "
              "its own"});
}

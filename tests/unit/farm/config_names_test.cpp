#include <catch2/catch.hpp>

#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

TEST_CASE("ids are given once, and both lines are named") {
  CHECK(problem_of(least_farm() + "[[station]]\nid = \"yard\"\n") ==
        "farm.toml:19: [[station]] 'yard': id is given twice, first at farm.toml:8; give each its "
        "own");
  CHECK_THAT(
      problem_of(
          least_farm() +
          "[[field]]\nid = \"top\"\nstation = \"yard\"\nsoil = \"clay\"\ncrop = \"grass\"\n"),
      StartsWith("farm.toml:19: [[field]] 'top': id is given twice, first at farm.toml:11"));
}

TEST_CASE("fields, machines and materials of one name, alike on the board, are told apart") {
  const std::string farm =
      with(least_farm(), "id = \"top\"\n", "id = \"top\"\nname = \"Top Field\"\n");
  const std::string field =
      "[[field]]\nid = \"b\"\nname = \"Top Field\"\nstation = "
      "\"yard\"\nsoil = \"clay\"\ncrop = \"grass\"\n";
  CHECK(problem_of(farm + field) ==
        "farm.toml:20: [[field]] 'b': name is \"Top Field\", as that of 'top' is; give each its "
        "own");
  CHECK(problems_of(farm + with(field, "Top Field", "Long Acre")).empty());
  CHECK_THAT(problem_of(least_farm() + with(field, "Top Field", "top")),
             Contains("name is \"top\""));
  const std::string slurry = "[[material]]\nid = \"a\"\nname = \"Slurry\"\nkind = \"slurry\"\n";
  CHECK_THAT(problem_of(least_farm() + slurry + with(slurry, "id = \"a\"", "id = \"b\"")),
             Contains("[[material]] 'b': name is \"Slurry\""));
  const std::string quad = "[[machine]]\nid = \"a\"\nname = \"Quad\"\nclass = \"quad bike\"\n";
  CHECK_THAT(problem_of(least_farm() + quad + with(quad, "id = \"a\"", "id = \"b\"")),
             Contains("[[machine]] 'b': name is \"Quad\""));
}

TEST_CASE("ids serve as a level of a topic and part of an address") {
  for (const char* bad : {"a/b", "a+b", "#", "a b", "\u00e9", "a.b", ""}) {
    INFO(bad);
    const std::string text = with(least_farm(), "\"top\"", "\"" + std::string(bad) + "\"");
    CHECK_THAT(problem_of(text), StartsWith("farm.toml:12: [[field]]"));
  }
  CHECK(problems_of(with(least_farm(), "\"top\"", "\"Top_field-2\"")).empty());
}

TEST_CASE("stations of a field exist, once each") {
  CHECK(problem_of(with(least_farm(), "station = \"yard\"", "station = [\"yard\",\n \"brok\"]")) ==
        "farm.toml:14: [[field]] 'top': station is \"brok\"; there is no such station; known are: "
        "yard");
  CHECK_THAT(problem_of(with(least_farm(), "station = \"yard\"", "station = [\"yard\", \"yard\"]")),
             StartsWith("farm.toml:13: [[field]] 'top': station names \"yard\" twice"));
  CHECK_THAT(problem_of(with(least_farm(), "station = \"yard\"", "station = []")),
             Contains("is an empty list"));
  CHECK_THAT(problem_of(with(least_farm(), "station = \"yard\"", "station = [\"yard\", 3]")),
             Contains("station holds 3"));
  CHECK_THAT(problem_of(least_farm() + "[[machine]]\nid = \"drill\"\nwheel_load_t = "
                                       "1\ntyre_pressure_bar = 1\n[[field]]\nid = \"b\"\nstation = "
                                       "\"yard\"\nsoil = \"clay\"\ncrop = "
                                       "\"grass\"\nsign_machine = \"dril\"\n"),
             StartsWith("farm.toml:28: [[field]] 'b': sign_machine is \"dril\"; there is no such "
                        "machine; did you mean \"drill\"?"));
}

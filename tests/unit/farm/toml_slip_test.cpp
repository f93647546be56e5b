#include <catch2/catch.hpp>

#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::test;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// What is said of a line of TOML that is none; it stands fourth.
std::string said_of(const std::string& line) {
  const std::string problem = problem_of("[farm]\nid = \"alder\"\n\n" + line + "\n\n[store]\n");
  CHECK_THAT(problem, StartsWith("farm.toml:4: not valid TOML: "));
  return problem;
}

}  // namespace

TEST_CASE("a text without its quotation marks is told from a number with something behind it") {
  for (const char* line : {"soil = clay loam", "name = Alder Farm", "pipe_drains = yes",
                           "pipe_drains = True", "soil = clay # loam"}) {
    INFO(line);
    CHECK_THAT(said_of(line), Contains("a text stands in quotation marks"));
  }
  for (const char* line : {"latitude = 53,9", "longitude = 1.3W", "elevation_m = 57 m",
                           "slope_pct = 5%", "wheel_load_t = 2.6t", "step = .2"}) {
    INFO(line);
    CHECK_THAT(said_of(line), Contains("a number stands alone, without its unit, and has a point"));
  }
  for (const char* line :
       {"sown = 04-10-2025", "sown = 4/10/2025", "sown = 4.10.2025",
        "crop = { name = \"winter wheat\", sown = 4/10/2025 }", "cuts = [25.05.2026]"}) {
    INFO(line);
    CHECK_THAT(said_of(line), Contains("a date is written year-month-day, such as 2026-03-20"));
  }
}

TEST_CASE("quotation marks that are missing, curved or followed by more are named") {
  CHECK_THAT(said_of("name = \"Alder Farm"), Contains("a quotation mark is missing"));
  CHECK_THAT(said_of("name = \"Alder\" Farm"), Contains("after the closing quotation mark"));
  CHECK_THAT(said_of("name = \u201cAlder Farm\u201d"), Contains("must be straight ones"));
}

TEST_CASE("a line that is neither heading nor key and value is told what it could be") {
  CHECK_THAT(said_of("name \"Alder Farm\""),
             Contains("a line is a heading, such as [mqtt], or key"));
  CHECK_THAT(said_of("name ="), Contains("the value is missing"));
  CHECK_THAT(said_of("pipe drains = true"), Contains("a key has no blanks"));
  CHECK_THAT(said_of("[[field]"), Contains("a heading stands alone on its line"));
  CHECK_THAT(said_of("[farm]"), Contains("once in the file"));
}

TEST_CASE("a list without its comma or bracket is told so, on one line or several") {
  CHECK_THAT(said_of("station = [\"yard\" \"brook\"]"), Contains("a comma stands between"));
  CHECK_THAT(said_of("soil = { sand_pct = 30; clay_pct = 20 }"),
             Contains("a comma stands between"));
  CHECK_THAT(said_of("crop = { sown = 2025-10-04 name = \"winter wheat\" }"),
             Contains("a comma stands between"));
  CHECK_THAT(problem_of("[farm]\nx = [\"yard\"\n\"brook\"]\n"),
             StartsWith("farm.toml:3: not valid TOML: in a list a comma stands between"));
}

TEST_CASE("a file that is not UTF-8 is told how to be saved") {
  CHECK_THAT(said_of("name = \"H\xf6he\""), Contains("save the file as plain text in UTF-8"));
}

TEST_CASE("a slip that the line does not show leaves the parser's own words") {
  CHECK_THAT(said_of("id = \"alder\""), StartsWith("farm.toml:4: not valid TOML: Error while"));
}

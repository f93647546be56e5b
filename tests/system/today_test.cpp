#include <catch2/catch.hpp>
#include <sstream>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

/// Length in code points: every byte of UTF-8 but those that continue one.
std::size_t columns(const std::string& line) {
  std::size_t count = 0;
  for (const char c : line) count += (static_cast<unsigned char>(c) & 0xC0) != 0x80 ? 1 : 0;
  return count;
}

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t most = 0;
  for (std::string line; std::getline(lines, line);) most = std::max(most, columns(line));
  return most;
}

FarmText wide_farm() {
  FarmText farm;
  farm.fields =
      "[[field]]\nid = \"top\"\nname = \"Páirc na gCapall Mór by the Old Mill Race and "
      "Beyond\"\nstation = \"yard\"\nsoil = \"clay\"\ndrainage = \"slow\"\n"
      "crop = \"pasture\"\n" +
      field_text("low");
  for (int i = 0; i < 6; ++i) {
    const std::string n = std::to_string(i);
    farm.more += "[[machine]]\nid = \"m" + n + "\"\nname = \"Self-propelled forage harvester " + n +
                 "\"\nwheel_load_t = 4.5\ntyre_pressure_bar = 1.5\n[[material]]\nid = \"s" + n +
                 "\"\nname = \"Slurry from store " + n + "\"\nkind = \"slurry\"\n";
  }
  return farm;
}

}  // namespace

TEST_CASE("today_answers_without_a_daemon_and_fits_a_terminal") {
  const Gleyd gleyd(wide_farm());
  const Said empty = gleyd.command("today");
  CHECK(empty.code == 0);
  CHECK(widest(empty.out) <= 80);
  CHECK_THAT(empty.out, Contains("No weather has arrived yet"));

  gleyd.load(days_up_to_yesterday(100, {.rain_mm = "6", .et0_mm = "1"}));
  const Said said = gleyd.command("today");
  CHECK(said.code == 0);
  CHECK(said.err == "");
  CHECK(widest(said.out) <= 80);
  CHECK_THAT(said.out, Contains("Alder Farm") && Contains("Field low") && Contains("Páirc"));
  CHECK_THAT(said.out, Contains("broker: the daemon is not running"));
  CHECK_THAT(said.out, Contains("at field capacity") || Contains("waterlogged"));
}

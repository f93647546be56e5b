#include "daemon/engine/fields/harvest_year.hpp"

#include <catch2/catch.hpp>
#include <string>

using gley::daemon::HarvestCalendar;
using std::chrono::sys_days;
using std::chrono::year;

TEST_CASE("a harvest year runs from October to September and is named by the year it ends in") {
  const HarvestCalendar north(53.9);
  CHECK(std::string(north.begins()) == "1 October");
  CHECK(north.of(sys_days{year{2025} / 9 / 30}).year == 2025);
  const auto season = north.of(sys_days{year{2025} / 10 / 1});
  CHECK(season.year == 2026);
  CHECK(season.first == sys_days{year{2025} / 10 / 1});
  CHECK(season.last == sys_days{year{2026} / 9 / 30});
}

TEST_CASE("south of the equator the harvest year runs from April to March") {
  const HarvestCalendar south(-36.9);
  CHECK(std::string(south.begins()) == "1 April");
  const auto season = south.of(sys_days{year{2024} / 2 / 29});
  CHECK(season.year == 2024);
  CHECK(season.first == sys_days{year{2023} / 4 / 1});
  CHECK(season.last == sys_days{year{2024} / 3 / 31});
}

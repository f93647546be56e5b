// The alerts of a replayed year beside the days of the same replay: each wet or dry spell that the
// days show has its one alert, and no alert stands without one.
#include <algorithm>
#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>

#include "daemon/readings/weather_csv.hpp"
#include "daemon/text/csv_rows.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/year_of_readings.hpp"

using namespace gley::tests;
using gley::daemon::csv_rows;

namespace {

using Days = std::set<std::string>;

struct Spell {
  std::string began;
  std::string ended;  ///< empty: it stands at the end of the year
};

/// Columns by name: "date" -> 0.
template <class Row>
std::map<std::string, std::size_t> columns_of(const Row& header) {
  std::map<std::string, std::size_t> columns;
  for (std::size_t i = 0; i < header.cells.size(); ++i) columns[header.cells[i]] = i;
  return columns;
}

std::string text_of(const std::filesystem::path& file) {
  std::ifstream stream(file);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// Where nobody told how wet a field began, no alert is raised until rain or drought has shown it.
bool rests_on_a_guess(const std::string& flags) {
  return flags.find("start_assumed") != std::string::npos;
}

/// The one field's year, replayed once.
struct ReplayedYear {
  Gleyd gleyd{FarmText()};
  std::string days;
  std::string alerts;

  ReplayedYear() {
    const auto weather = gleyd.write("weather.csv", weather_file(dublin_2018()));
    const auto out = gleyd.write("out", "").parent_path() / "replayed";
    const Said said =
        gleyd.command("replay", {"--weather", weather.string(), "--out", out.string()});
    INFO(said.err);
    REQUIRE(said.code == 0);
    days = text_of(out / "days.csv");
    alerts = text_of(out / "alerts.csv");
  }

  [[nodiscard]] Days days_of(const std::string& wetness) const {
    const auto rows = csv_rows(days);
    auto column = columns_of(rows.front());
    Days found;
    for (std::size_t i = 1; i < rows.size(); ++i)
      if (rows[i].cells[column["wetness"]] == wetness &&
          !rests_on_a_guess(rows[i].cells[column["flags"]]))
        found.insert(rows[i].cells[column["date"]]);
    return found;
  }

  [[nodiscard]] std::vector<Spell> spells_of(const std::string& event) const {
    const auto rows = csv_rows(alerts);
    auto column = columns_of(rows.front());
    std::vector<Spell> found;
    for (std::size_t i = 1; i < rows.size(); ++i) {
      const auto& cells = rows[i].cells;
      if (cells[column["event"]] == event)
        found.push_back({cells[column["began"]], cells[column["ended"]]});
    }
    return found;
  }
};

/// ISO dates sort as text.
bool holds(const Spell& spell, const std::string& day) {
  return spell.began <= day && (spell.ended.empty() || day <= spell.ended);
}

}  // namespace

TEST_CASE("every_wet_and_dry_spell_of_a_replayed_year_has_one_alert") {
  const ReplayedYear year;
  for (const std::string state : {"waterlogged", "at field capacity", "short of water"}) {
    const Days days = year.days_of(state);
    const auto spells = year.spells_of(state);
    INFO(state << ", " << days.size() << " days, " << spells.size() << " alerts");
    CHECK(spells.empty() == days.empty());
    for (const std::string& day : days) {
      INFO(day);
      CHECK(std::count_if(spells.begin(), spells.end(),
                          [&](const Spell& spell) { return holds(spell, day); }) >= 1);
    }
    for (const Spell& spell : spells) {
      INFO("began " << spell.began << ", ended " << spell.ended);
      CHECK(days.contains(spell.began));
    }
    for (std::size_t i = 1; i < spells.size(); ++i) CHECK(spells[i - 1].ended <= spells[i].began);
  }
  // Ireland's summer of 2018 was a drought: Met Éireann, Summer 2018 statement, absolute droughts
  // from late May on. From memory.
  CHECK(!year.days_of("short of water").empty());
}

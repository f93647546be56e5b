#include <catch2/catch.hpp>
#include <sstream>

#include "daemon/text/csv_rows.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using gley::daemon::csv_rows;
using gley::daemon::date_text;
using nlohmann::json;

namespace {

const std::string a_machine =
    "[[machine]]\nid = \"drill\"\nname = \"Tractor and drill\"\nwheel_load_t = 0.8\n"
    "tyre_pressure_bar = 0.6\n";

constexpr int past_days = 500;  // reaches over a whole harvest year and into two others

/// Starts the daemon on past weather: two dry weeks and two wet weeks by turns.
void start_with_past(Gleyd& gleyd) {
  std::string text = "date,rain_mm,et0_mm\n";
  for (int ago = past_days; ago > 0; --ago)
    text +=
        date_text(today() - std::chrono::days{ago}) + "," + (ago / 14 % 2 ? "6.5" : "0") + ",2.5\n";
  gleyd.load(text);
  gleyd.start();
}

FarmText farm_with_machine() {
  FarmText farm;
  farm.more = a_machine;
  return farm;
}

/// A column of a days file, by its header's name.
std::vector<std::string> column(const std::string& csv, const std::string& name) {
  const auto rows = csv_rows(csv);
  std::size_t at = 0;
  while (at < rows[0].cells.size() && rows[0].cells[at] != name) ++at;
  std::vector<std::string> values;
  for (std::size_t row = 1; row < rows.size(); ++row) values.push_back(rows[row].cells.at(at));
  return values;
}

double number(const std::string& text) {
  return gley::daemon::number_from(text).value();
}

}  // namespace

TEST_CASE("a_fields_record_has_the_numbers_of_its_days_file") {
  Gleyd gleyd(farm_with_machine());
  start_with_past(gleyd);
  const std::string csv = gleyd.get("/api/field/top/days.csv").body;
  const json record =
      gleyd.json("/api/field/top/record?to=" + date_text(today() - std::chrono::days{1}));
  const auto dates = column(csv, "date");
  REQUIRE(dates.size() == past_days);
  REQUIRE(record["date"].get<std::vector<std::string>>() == dates);
  for (const char* name : {"rain_mm", "irrigation_mm", "et0_mm", "runoff_mm", "depletion_mm",
                           "topsoil_deficit_mm", "surplus_mm", "pond_mm"}) {
    const auto wanted = column(csv, name);
    INFO(name);
    REQUIRE(record[name].size() == wanted.size());
    for (std::size_t i = 0; i < wanted.size(); ++i)
      CHECK(record[name][i].get<double>() == Approx(number(wanted[i])).margin(0.0051));
  }
  const auto theta = column(csv, "theta_2");
  CHECK(record["layers"][1]["theta"].back().get<double>() ==
        Approx(number(theta.back())).margin(0.00006));
  CHECK(record["wetness"].get<std::vector<std::string>>() == column(csv, "wetness"));
  CHECK_FALSE(record["last_is_so_far"].get<bool>());
}

TEST_CASE("seasons_sum_up_the_days_file_and_the_machines_file") {
  Gleyd gleyd(farm_with_machine());
  start_with_past(gleyd);
  const std::string csv = gleyd.get("/api/field/top/days.csv").body;
  const auto dates = column(csv, "date");
  const auto rain = column(csv, "rain_mm");
  const auto drainage = column(csv, "drainage_mm");
  const auto pipes = column(csv, "pipe_drain_mm");
  const auto wetness = column(csv, "wetness");
  const json seasons = gleyd.json("/api/field/top/seasons")["seasons"];
  int days = 0;
  for (const json& season : seasons) {
    double rain_mm = 0.0;
    double drainage_mm = 0.0;
    int full = 0;
    for (std::size_t i = 0; i < dates.size(); ++i) {
      if (dates[i] < season["from"].get<std::string>() ||
          dates[i] > season["to"].get<std::string>())
        continue;
      rain_mm += number(rain[i]);
      drainage_mm += number(drainage[i]) + number(pipes[i]);
      full += wetness[i] == "at field capacity" || wetness[i] == "waterlogged" ? 1 : 0;
    }
    INFO(season["harvest_year"]);
    CHECK(season["whole"]["rain_mm"].get<double>() == Approx(rain_mm).margin(0.01));
    CHECK(season["whole"]["drainage_mm"].get<double>() == Approx(drainage_mm).margin(0.01));
    CHECK(season["whole"]["days_at_field_capacity"] == full);
    days += season["whole"]["days"].get<int>();
  }
  CHECK(days == past_days);

  std::string past = "date,rain_mm,et0_mm\n";
  const auto et0 = column(csv, "et0_mm");
  for (std::size_t i = 0; i < dates.size(); ++i)
    past += dates[i] + ',' + rain[i] + ',' + et0[i] + '\n';
  const auto out = gleyd.directory() / "out";
  const Said said = gleyd.command(
      "replay", {"--weather", gleyd.write("again.csv", past).string(), "--out", out.string()});
  REQUIRE(said.code == 0);
  int carried = 0;
  for (const std::string& verdict : column(read_file(out / "machines.csv"), "verdict"))
    carried += verdict == "carries" ? 1 : 0;
  int counted = 0;
  for (const json& season : seasons) counted += season["whole"]["days_carried"]["drill"].get<int>();
  CHECK(carried > 0);
  CHECK(counted == carried);

  const auto rows = csv_rows(gleyd.get("/api/field/top/seasons.csv").body);
  CHECK(rows.size() == seasons.size() + 1);
  CHECK(rows[0].cells.back() == "days_carried_drill");
}

TEST_CASE("a_field_without_a_day_has_an_empty_record_and_no_season") {
  Gleyd gleyd{FarmText{}};
  gleyd.start();
  CHECK(gleyd.json("/api/field/top/record")["date"].empty());
  CHECK(gleyd.json("/api/field/top/seasons")["seasons"].empty());
  CHECK(gleyd.get("/api/field/top/ahead").body == "null");
  for (const char* path : {"record", "ahead", "seasons", "seasons.csv"})
    CHECK(gleyd.get(std::string("/api/field/other/") + path).status == 404);
  CHECK(gleyd.get("/api/field/top/record?from=2026-02-30").status == 400);
}

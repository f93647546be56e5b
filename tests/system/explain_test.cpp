#include <catch2/catch.hpp>
#include <sstream>

#include "daemon/text/csv_rows.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;
using gley::daemon::csv_rows;
using gley::daemon::date_text;

namespace {

FarmText farm_with_machine() {
  FarmText farm;
  farm.more = drill_text;
  return farm;
}

/// The days up to yesterday, with all that the reference ET can be made from.
std::string full_weather(int count) {
  std::string text = "date,rain_mm,tmin_c,tmax_c,rh_min_pct,rh_max_pct,wind_m_s,sun_h\n";
  for (int ago = count; ago > 0; --ago)
    text += date_text(today() - std::chrono::days{ago}) + "," + std::to_string(ago % 5 * 2) +
            ".5," + std::to_string(3 + ago % 6) + ".3," + std::to_string(12 + ago % 7) + ".1,6" +
            std::to_string(ago % 10) + ",9" + std::to_string(ago % 10) + "," +
            std::to_string(1 + ago % 4) + ".7,3.25\n";
  return text;
}

/// What stands between '=' and '[column]' in the explanation, without its unit.
std::string shown(const std::string& text, const std::string& column) {
  std::string unbroken = text;
  for (std::size_t at = unbroken.find('['); at != std::string::npos;
       at = unbroken.find('[', at + 1))
    while (at > 1 && unbroken[at - 1] == ' ' &&
           (unbroken[at - 2] == ' ' || unbroken[at - 2] == '\n'))
      unbroken.erase(--at, 1);
  const std::size_t end = unbroken.find("[" + column + "]");
  if (end == std::string::npos) return "nothing";
  const std::size_t start = unbroken.rfind(" = ", end) + 3;
  const std::string value = unbroken.substr(start, end - start);
  return value.substr(0, value.find_last_not_of(" \n") + 1);
}

/// The number of the text, or all of it where it begins with none.
std::string without_unit(const std::string& value) {
  const std::string first = value.substr(0, value.find_first_of(" \n"));
  return gley::daemon::number_from(first) ? first : value;
}

}  // namespace

TEST_CASE("explain_shows_the_numbers_that_replay_writes") {
  const Gleyd gleyd(farm_with_machine());
  const auto weather = gleyd.write("past.csv", full_weather(40));
  const auto rows = csv_rows(replayed_days(gleyd, weather, "top"));
  for (const std::size_t row : {std::size_t{1}, std::size_t{17}, rows.size() - 1}) {
    const std::string& date = rows[row].cells[0];
    const Said said =
        gleyd.command("explain", {"--field", "top", "--date", date, "--weather", weather.string()});
    INFO(said.err);
    REQUIRE(said.code == 0);
    for (std::size_t column = 2; column < rows[0].cells.size(); ++column) {
      const std::string& name = rows[0].cells[column];
      INFO(date << ' ' << name);
      const std::string want = rows[row].cells[column];
      if (name == "flags" || name == "wetness")
        CHECK(shown(said.out, name) == (want.empty() ? "none" : want));
      else
        CHECK(without_unit(shown(said.out, name)) == want);
    }
    std::istringstream lines(said.out);
    for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
  }
}

TEST_CASE("explain_names_what_is_wrong_with_its_options") {
  const Gleyd gleyd(farm_with_machine());
  const auto weather = gleyd.write("past.csv", full_weather(10));
  const std::string yesterday = date_text(today() - std::chrono::days{1});
  const auto explain = [&](const std::string& field, const std::string& date) {
    return gleyd.command("explain",
                         {"--field", field, "--date", date, "--weather", weather.string()});
  };
  const Said unknown = explain("tpo", yesterday);
  CHECK(unknown.code == 2);
  CHECK_THAT(unknown.err, Contains("no field has the id 'tpo'") && Contains("'top'"));
  const Said no_date = explain("top", "yesterday");
  CHECK(no_date.code == 2);
  CHECK_THAT(no_date.err, Contains("--date: 'yesterday' is not a date"));
  const Said no_weather = explain("top", "2001-02-03");
  CHECK(no_weather.code == 2);
  CHECK(no_weather.out == "");
  CHECK_THAT(no_weather.err,
             Contains("no weather for field 'top' on 2001-02-03") && Contains("to " + yesterday));
  const Said empty_store = gleyd.command("explain", {"--field", "top", "--date", yesterday});
  CHECK(empty_store.code == 2);
  CHECK_THAT(empty_store.err, Contains("nothing on record"));
}

TEST_CASE("explain_answers_over_http_as_from_the_store") {
  Gleyd gleyd(farm_with_machine());
  gleyd.load(full_weather(40));
  gleyd.start();
  const std::string yesterday = date_text(today() - std::chrono::days{1});
  const auto rows =
      csv_rows(gleyd.get("/api/field/top/days.csv?from=" + yesterday + "&to=" + yesterday).body);
  REQUIRE(rows.size() == 2);
  const auto day = gleyd.json("/api/field/top/explain?date=" + yesterday);
  CHECK(day["so_far"] == false);
  std::map<std::string, nlohmann::json> by_key;
  for (const auto& section : day["sections"])
    for (const auto& line : section["lines"]) by_key[line["key"]] = line["value"];
  for (std::size_t column = 2; column < rows[0].cells.size(); ++column) {
    INFO(rows[0].cells[column]);
    const auto& value = by_key[rows[0].cells[column]];
    if (value.is_number())
      CHECK(value.get<double>() == gley::daemon::number_from(rows[1].cells[column]));
    else
      CHECK(value == rows[1].cells[column]);
  }

  const std::string now = date_text(today());
  const auto so_far = gleyd.json("/api/field/top/explain?date=" + now);
  CHECK(so_far["so_far"] == true);
  const Said printed = gleyd.command("explain", {"--field", "top", "--date", now});
  CHECK(printed.code == 0);
  CHECK_THAT(printed.out, Contains("so far") && Contains("has not ended"));

  CHECK(gleyd.get("/api/field/top/explain").status == 400);
  CHECK(gleyd.get("/api/field/top/explain?date=2026-02-30").status == 400);
  CHECK(gleyd.get("/api/field/top/explain?day=2026-02-03").status == 400);
  CHECK(gleyd.get("/api/field/other/explain?date=" + yesterday).status == 404);
  const HttpAnswer none = gleyd.get("/api/field/top/explain?date=2001-02-03");
  CHECK(none.status == 404);
  CHECK_THAT(nlohmann::json::parse(none.body)["error"].get<std::string>(),
             Contains("no weather for field 'top' on 2001-02-03"));
}

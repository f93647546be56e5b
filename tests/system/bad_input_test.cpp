#include <catch2/catch.hpp>

#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

const char* const full_of_mistakes = R"([farm]
id = "alder"
latitude = 153.9
longitude = -1.3
elevation_m = 57
time_zone = "Europe/Londno"

[store]
path = "alder.db"

[[station]]
id = "yard"
[[station.reading]]
topic = "weather/yard/rain"
quantity = "rian"
unit = "mm"
form = "interval"

[[field]]
id = "top"
station = "yrad"
soil = "clay lome"
crop = "grass"
colour = "green"
)";

struct Mistake {
  int line;
  const char* word;
};
constexpr Mistake mistakes[]{{3, "latitude"}, {6, "Europe/London"}, {15, "rain"},
                             {21, "yard"},    {22, "clay loam"},    {24, "colour"}};

/// The line that begins with "file:line:", empty if there is none.
std::string line_about(const std::string& text, const std::string& file, int line) {
  const std::string start = file + ":" + std::to_string(line) + ": ";
  const auto at = text.find(start);
  return at == std::string::npos ? "" : text.substr(at, text.find('\n', at) - at);
}

std::string sample(const std::string& outcome) {
  return "gley_readings_total{outcome=\"" + outcome + "\"}";
}

std::size_t times_in(const std::string& text, const std::string& words) {
  std::size_t count = 0;
  for (std::size_t at = 0; (at = text.find(words, at)) != std::string::npos; at += words.size())
    ++count;
  return count;
}

std::string rain_at(std::chrono::seconds from_now, double amount_mm) {
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  return senml_pack({{"rain", now + from_now, amount_mm}});
}

}  // namespace

TEST_CASE("every_mistake_of_a_configuration_is_named_and_nothing_is_started") {
  const Gleyd gleyd(FarmText{});
  (void)gleyd.write("farm.toml", full_of_mistakes);
  for (const std::string command : {"check", "serve"}) {
    const Said said = gleyd.command(command);
    CHECK(said.code == 2);
    CHECK(said.out == "");
    for (const Mistake& mistake : mistakes)
      CHECK_THAT(line_about(said.err, gleyd.config().string(), mistake.line),
                 Contains(mistake.word));
    CHECK(times_in(said.err, "\n") == std::size(mistakes));
  }
  CHECK_FALSE(std::filesystem::exists(gleyd.store()));
}

TEST_CASE("replay_names_the_line_of_every_mistake_in_a_weather_file") {
  const Gleyd gleyd(FarmText{});
  const auto replay = [&](const std::string& text) {
    const auto file = gleyd.write("weather.csv", text);
    const Said said = gleyd.command(
        "replay", {"--weather", file.string(), "--out", (gleyd.directory() / "out").string()});
    CHECK(said.code == 2);
    CHECK_FALSE(std::filesystem::exists(gleyd.directory() / "out"));
    return said.err;
  };
  const std::string file = (gleyd.directory() / "weather.csv").string();
  CHECK_THAT(line_about(replay("date,rain_inches\n2018-01-01,1\n"), file, 1),
             Contains("rain_inches"));
  const std::string err = replay(
      "date,rain_mm,tmin_c,tmax_c\n2018-01-01,1,2,9\n2018-01-01,1,2,9\n2018-01-03,1.2.3,2,9\n"
      "2018-01-04,-1,2,9\n2018-01-05,1,9.5,9\n2018-02-30,1,2,9\n2018-01-07,1,2\n");
  CHECK_THAT(line_about(err, file, 3), Contains("2018-01-01"));
  CHECK_THAT(line_about(err, file, 4), Contains("1.2.3"));
  CHECK_THAT(line_about(err, file, 5), Contains("rain_mm"));
  CHECK_THAT(line_about(err, file, 6), Contains("tmin_c") && Contains("tmax_c"));
  CHECK_THAT(line_about(err, file, 7), Contains("2018-02-30"));
  CHECK_THAT(line_about(err, file, 8), Contains("3 cells"));
  CHECK(times_in(err, "\n") == 6);
}

TEST_CASE("an_unknown_station_or_field_or_file_of_the_command_line_is_bad_input") {
  const Gleyd gleyd(FarmText{});
  const auto weather = gleyd.write("weather.csv", "date,rain_mm,et0_mm\n2018-01-01,1,1\n").string();
  CHECK(gleyd.command("load", {"--station", "yrad", "--weather", weather}).code == 2);
  CHECK_FALSE(std::filesystem::exists(gleyd.store()));
  const std::string out = (gleyd.directory() / "out").string();
  const Said said = gleyd.command("replay", {"--weather", weather, "--out", out, "--field", "tpo"});
  CHECK(said.code == 2);
  CHECK_THAT(said.err, Contains("'top'"));
  CHECK(gleyd.command("replay", {"--weather", weather + "x", "--out", out}).code == 2);
  CHECK(gleyd.command("replay", {"--weather", weather}).code == 2);
  const Said unknown = run_gleyd({"rplay", "--config", "farm.toml"});
  CHECK(unknown.code == 2);
  CHECK(unknown.err == "gleyd: there is no command 'rplay'; did you mean 'replay'?\n");
  CHECK(run_gleyd({"check", "--config", (gleyd.directory() / "none.toml").string()}).code == 2);
}

TEST_CASE("payloads_that_cannot_be_readings_are_counted_named_and_not_used") {
  const Broker broker;
  FarmText farm(broker.port());
  farm.station +=
      "[[station.reading]]\ntopic = \"weather/+/air\"\nname = \"air\"\n"
      "quantity = \"temperature\"\nunit = \"Cel\"\nform = \"instant\"\n";
  Gleyd gleyd(farm);
  gleyd.start_online();
  using std::chrono::hours;
  broker.publish("weather/yard/rain", "wet");
  broker.publish("weather/yard/rain", "sodden");
  broker.publish("weather/yard/rain", "-3");
  broker.publish("weather/yard/pack", rain_at(-hours{24} * 400, 7));
  broker.publish("weather/yard/pack", rain_at(hours{2}, 8));
  broker.publish("weather/yard/pack", "[{\"n\":\"hail\",\"v\":1}]");
  broker.publish("weather/yard/air", "[{\"n\":\"air\",\"u\":\"lx\",\"v\":1}]");
  broker.publish("weather/yard/pack", "{");

  // rain: 'hail' and '{' are refused by each of the four records mapped to the topic.
  const std::map<std::string, double> want{{"not_a_number", 2},
                                           {"out_of_range", 1},
                                           {"too_old", 1},
                                           {"in_the_future", 1},
                                           {"wrong_unit", 1}};
  for (const auto& [outcome, count] : want) {
    INFO(outcome);
    CHECK(eventually([&] { return gleyd.metric(sample(outcome)) == count; }));
  }
  CHECK(eventually([&] {
    return gleyd.metric(sample("malformed")).value_or(0.0) > 0.0 &&
           gleyd.metric(sample("unmapped")).value_or(0.0) > 0.0;
  }));

  // The second within a minute on one topic is counted and not logged.
  const std::string log = gleyd.log();
  CHECK_THAT(log, Contains("weather/yard/rain: not_a_number: 'wet'"));
  CHECK_THAT(log, !Contains("sodden"));
  CHECK(times_in(log, "weather/yard/pack: ") == 1);

  broker.publish("weather/yard/pack", rain_at(-hours{1}, 0.4));
  REQUIRE(eventually([&] {
    return gleyd.metric(sample("stored")).value_or(0.0) >= 1.0 &&
           gleyd.json("/api/field/top")["water"]["wetness"].is_string();
  }));
  CHECK(gleyd.get("/healthz").status == 200);
  CHECK(gleyd.running());

  gley::daemon::Database database(gleyd.store(), gley::daemon::Durability::process);
  CHECK(database.number("SELECT count(*) FROM reading WHERE status = 0") == 1);  // used
  CHECK(database.number("SELECT count(*) FROM reading WHERE status = 1") == 1);  // too old
  CHECK(database.number("SELECT count(*) FROM reading WHERE status = 2") == 1);  // in the future
}

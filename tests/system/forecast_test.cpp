#include <catch2/catch.hpp>

#include "tests/coverage_text.hpp"
#include "tests/system/foreign_judge.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using nlohmann::json;
using namespace std::chrono_literals;

namespace {

const std::string machine_topic = "gley/alder/field/top/machine/tractor";
const std::string spreading_topic = "gley/alder/field/top/spreading/slurry";

const std::string tractor_and_slurry =
    "[[machine]]\nid = \"tractor\"\nname = \"Tractor\"\nwheel_load_t = 1.0\n"
    "tyre_pressure_bar = 0.6\n" +
    slurry_text;

FarmText farm_for(const Broker& broker) {
  FarmText farm(broker.port());
  farm.more = forecast_text + tractor_and_slurry;
  return farm;
}

/// A week by the hour with members as wet as told on the day after tomorrow.
json week(const std::vector<double>& wet_mm) {
  const auto start = std::chrono::floor<std::chrono::hours>(std::chrono::system_clock::now());
  const auto wet_from = today() + std::chrono::days{2};
  ForecastTable table;
  for (int h = 0; h <= 7 * 24; ++h) {
    const auto time = start + std::chrono::hours{h};
    const bool wet = time > wet_from + 6h && time <= wet_from + 12h;
    std::vector<double> rain_mm;
    for (const double mm : wet_mm) rain_mm.push_back(wet ? mm / 6.0 : 0.0);
    table.rows.push_back({time, rain_mm, 9.0});
  }
  return coverage(table);
}

std::string word(const Topics& topics, const std::string& topic, const std::string& key) {
  const auto found = topics.find(topic);
  if (found == topics.end()) return "";
  const json value = json::parse(found->second)[key];
  return value.is_string() ? value.get<std::string>() : "";
}

struct Forecasted {
  Broker broker;
  Gleyd gleyd{farm_for(broker)};

  Forecasted() {
    gleyd.load(days_up_to_yesterday(60, {.rain_mm = "1", .et0_mm = "2.5"}));
    gleyd.start_online();
  }
  void publish(const std::string& payload) const {
    broker.publish("weather/forecast", payload, {"-r"});
  }
};

}  // namespace

TEST_CASE("a_forecast_opens_spreading_and_a_wetter_one_closes_it") {
  const Forecasted farm;
  CHECK(eventually_retained(farm.broker, [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "not known";
  }));
  farm.publish(week({0.0, 0.0, 0.0, 0.0}).dump());
  CHECK(eventually_retained(farm.broker, [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "clear" &&
           word(topics, machine_topic, "verdict") == "carries" &&
           word(topics, machine_topic, "until").empty();
  }));
  // All members bring a flood the day after tomorrow: what is carried ends as it sets in.
  farm.publish(week({120.0, 110.0, 100.0, 90.0}).dump());
  const std::string sets_in = gley::daemon::rfc3339(today() + std::chrono::days{2} + 7h);
  CHECK(eventually_retained(farm.broker, [&](const Topics& topics) {
    return word(topics, machine_topic, "until") == sets_in;
  }));
  const Topics topics = retained(farm.broker);
  CHECK(schema_faults("field-machine", topics.at(machine_topic)) == "");
  CHECK(schema_faults("field-spreading", topics.at(spreading_topic)) == "");
  CHECK(schema_faults("board", topics.at("gley/alder/board")) == "");
  CHECK(farm.gleyd.json("/api/forecast")["members_sent"] == 4);
}

TEST_CASE("a_forecast_that_cannot_be_used_is_named_and_the_one_before_stays") {
  Forecasted farm;
  farm.publish(week({0.0, 0.0}).dump());
  CHECK(eventually_retained(farm.broker, [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "clear";
  }));
  const std::string before = farm.gleyd.json("/api/board")["forecast_time"];
  json off = week({0.0, 0.0});
  off["domain"]["axes"]["x"] = {{"values", {12.0}}};
  off["domain"]["axes"]["y"] = {{"values", {48.0}}};
  farm.publish(off.dump());
  CHECK(farm.gleyd.eventually_logs("km from the farm"));
  CHECK(farm.gleyd.json("/api/board")["forecast_time"] == before);
  // The next start finds the good one in the store.
  farm.gleyd.stop();
  farm.gleyd.start();
  CHECK(farm.gleyd.json("/api/board")["forecast_time"] == before);
  CHECK(farm.gleyd.json("/api/field/top")["spreading"]["slurry"]["advice"] == "clear");
}

TEST_CASE("a_forecast_file_can_be_tried_out_and_a_bad_one_is_named") {
  FarmText farm;
  farm.more = tractor_and_slurry;
  const Gleyd gleyd(farm);
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "1", .et0_mm = "2.5"}));
  CHECK_THAT(gleyd.command("today").out, Catch::Matchers::Contains("No forecast has come"));
  const auto dry = gleyd.write("dry.json", week({0.0, 0.0}).dump());
  const Said said = gleyd.command("today", {"--forecast", dry.string()});
  CHECK(said.code == 0);
  CHECK_THAT(said.out, Catch::Matchers::Contains("clear") &&
                           Catch::Matchers::Contains("2 members") &&
                           Catch::Matchers::Contains("under an hour old"));
  json wrong = week({0.0, 0.0});
  wrong["domain"]["axes"]["t"]["values"][3] = wrong["domain"]["axes"]["t"]["values"][2];
  const auto bad = gleyd.write("bad.json", wrong.dump());
  const Said refused = gleyd.command("today", {"--forecast", bad.string()});
  CHECK(refused.code == 2);
  CHECK_THAT(refused.err, Catch::Matchers::Contains("bad.json: forecast: time") &&
                              Catch::Matchers::Contains("times must rise, none twice"));
  CHECK(gleyd.command("serve", {"--forecast", dry.string()}).code == 2);  // no [forecast]
}

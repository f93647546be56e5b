#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using Topics = std::map<std::string, std::string>;
using nlohmann::json;
using namespace std::chrono_literals;

namespace {

const std::string machine_topic = "gley/alder/field/top/machine/tractor";
const std::string spreading_topic = "gley/alder/field/top/spreading/slurry";

FarmText farm_for(const Broker& broker) {
  FarmText farm;
  farm.mqtt_port = broker.port();
  farm.more =
      "[forecast]\ntopic = \"weather/forecast\"\n"
      "[[machine]]\nid = \"tractor\"\nname = \"Tractor\"\nwheel_load_t = 1.0\n"
      "tyre_pressure_bar = 0.6\n"
      "[[material]]\nid = \"slurry\"\nname = \"Slurry\"\nkind = \"slurry\"\n";
  return farm;
}

std::string stamp(std::chrono::sys_seconds time) {
  const auto day = std::chrono::floor<std::chrono::days>(time);
  const auto hours = std::chrono::duration_cast<std::chrono::hours>(time - day).count();
  return gley::daemon::date_text(day) + (hours < 10 ? "T0" : "T") + std::to_string(hours) +
         ":00:00Z";
}

/// A week by the hour with members as wet as told on the day after tomorrow.
json coverage(const std::vector<double>& wet_mm) {
  const auto start = std::chrono::floor<std::chrono::hours>(std::chrono::system_clock::now());
  const auto wet_from = today() + std::chrono::days{2};
  json times = json::array();
  json rain = json::array();
  json temperature = json::array();
  for (int h = 0; h <= 7 * 24; ++h) {
    const auto time = start + std::chrono::hours{h};
    times.push_back(stamp(time));
    temperature.push_back(9.0);
    for (const double mm : wet_mm)
      rain.push_back(time > wet_from + 6h && time <= wet_from + 12h ? mm / 6.0 : 0.0);
  }
  const auto size = times.size();
  json out = json::parse(R"({"type":"Coverage","domain":{"type":"Domain",
    "domainType":"PointSeries"},"parameters":{
    "rain":{"type":"Parameter","unit":{"symbol":"mm"}},
    "temperature":{"type":"Parameter","unit":{"symbol":"Cel"}}}})");
  json members = json::array();
  for (std::size_t m = 0; m < wet_mm.size(); ++m) members.push_back(m);
  out["domain"]["axes"] = {{"t", {{"values", times}}}, {"member", {{"values", members}}}};
  out["ranges"]["rain"] = {{"type", "NdArray"},
                           {"dataType", "float"},
                           {"axisNames", {"t", "member"}},
                           {"shape", {size, wet_mm.size()}},
                           {"values", rain}};
  out["ranges"]["temperature"] = {{"type", "NdArray"},
                                  {"dataType", "float"},
                                  {"axisNames", {"t"}},
                                  {"shape", {size}},
                                  {"values", temperature}};
  return out;
}

std::string word(const Topics& topics, const std::string& topic, const std::string& key) {
  const auto found = topics.find(topic);
  if (found == topics.end()) return "";
  const json value = json::parse(found->second)[key];
  return value.is_string() ? value.get<std::string>() : "";
}

std::string schema_faults(const Gleyd& gleyd, const std::string& schema, const std::string& text) {
  const auto file = gleyd.write("message.json", text);
  const auto err = gleyd.directory() / "faults";
  const std::string top = GLEY_SOURCE_DIR;
  const int code = run({"/usr/bin/python3", top + "/tests/schema/validate.py",
                        top + "/config/schema/" + schema + ".schema.json", file.string()},
                       {.out = {}, .err = err});
  return code == 0 ? "" : read_file(err) + "exit " + std::to_string(code);
}

struct Forecasted {
  Broker broker;
  Gleyd gleyd{farm_for(broker)};

  Forecasted() {
    const auto past =
        gleyd.write("past.csv", days_up_to_yesterday(60, {.rain_mm = "1", .et0_mm = "2.5"}));
    REQUIRE(gleyd.command("load", {"--station", "yard", "--weather", past.string()}).code == 0);
    gleyd.start_online();
  }
  void publish(const std::string& payload) const {
    publish_with_mosquitto_pub(broker.port(), "weather/forecast", payload, {"-r"});
  }
};

}  // namespace

TEST_CASE("a_forecast_opens_spreading_and_a_wetter_one_closes_it") {
  const Forecasted farm;
  CHECK(eventually_retained(farm.broker.port(), [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "not known";
  }));
  farm.publish(coverage({0.0, 0.0, 0.0, 0.0}).dump());
  CHECK(eventually_retained(farm.broker.port(), [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "clear" &&
           word(topics, machine_topic, "verdict") == "carries" &&
           word(topics, machine_topic, "until").empty();
  }));
  // All members bring a flood the day after tomorrow: what is carried ends as it sets in.
  farm.publish(coverage({120.0, 110.0, 100.0, 90.0}).dump());
  const std::string sets_in = stamp(today() + std::chrono::days{2} + 7h);
  CHECK(eventually_retained(farm.broker.port(), [&](const Topics& topics) {
    return word(topics, machine_topic, "until") == sets_in;
  }));
  const Topics topics = retained(farm.broker.port());
  CHECK(schema_faults(farm.gleyd, "field-machine", topics.at(machine_topic)) == "");
  CHECK(schema_faults(farm.gleyd, "field-spreading", topics.at(spreading_topic)) == "");
  CHECK(schema_faults(farm.gleyd, "board", topics.at("gley/alder/board")) == "");
  CHECK(farm.gleyd.json("/api/forecast")["members_sent"] == 4);
}

TEST_CASE("a_forecast_that_cannot_be_used_is_named_and_the_one_before_stays") {
  Forecasted farm;
  farm.publish(coverage({0.0, 0.0}).dump());
  CHECK(eventually_retained(farm.broker.port(), [](const Topics& topics) {
    return word(topics, spreading_topic, "advice") == "clear";
  }));
  const std::string before = farm.gleyd.json("/api/board")["forecast_time"];
  json off = coverage({0.0, 0.0});
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
  const Gleyd gleyd([] {
    FarmText farm;
    farm.more =
        "[[machine]]\nid = \"tractor\"\nname = \"Tractor\"\nwheel_load_t = 1.0\n"
        "tyre_pressure_bar = 0.6\n"
        "[[material]]\nid = \"slurry\"\nname = \"Slurry\"\nkind = \"slurry\"\n";
    return farm;
  }());
  const auto past =
      gleyd.write("past.csv", days_up_to_yesterday(60, {.rain_mm = "1", .et0_mm = "2.5"}));
  REQUIRE(gleyd.command("load", {"--station", "yard", "--weather", past.string()}).code == 0);
  CHECK_THAT(gleyd.command("today").out, Catch::Matchers::Contains("No forecast has come"));
  const auto dry = gleyd.write("dry.json", coverage({0.0, 0.0}).dump());
  const Said said = gleyd.command("today", {"--forecast", dry.string()});
  CHECK(said.code == 0);
  CHECK_THAT(said.out, Catch::Matchers::Contains("clear") &&
                           Catch::Matchers::Contains("2 members") &&
                           Catch::Matchers::Contains("under an hour old"));
  json wrong = coverage({0.0, 0.0});
  wrong["domain"]["axes"]["t"]["values"][3] = wrong["domain"]["axes"]["t"]["values"][2];
  const auto bad = gleyd.write("bad.json", wrong.dump());
  const Said refused = gleyd.command("today", {"--forecast", bad.string()});
  CHECK(refused.code == 2);
  CHECK_THAT(refused.err, Catch::Matchers::Contains("bad.json: forecast: time") &&
                              Catch::Matchers::Contains("times must rise, none twice"));
  CHECK(gleyd.command("serve", {"--forecast", dry.string()}).code == 2);  // no [forecast]
}

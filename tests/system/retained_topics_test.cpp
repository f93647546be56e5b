#include <catch2/catch.hpp>

#include "tests/system/foreign_judge.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;

namespace {

const std::string root = "gley/alder/";

FarmText farm_for(const Broker& broker) {
  FarmText farm(broker.port());
  farm.more = drill_text + nitrogen_text;
  return farm;
}

void load(const Gleyd& gleyd, const PlainDay& day) {
  gleyd.load(days_up_to_yesterday(200, day));
}

std::vector<std::string> keys_of(const std::string& json) {
  std::vector<std::string> keys;
  const auto parsed = nlohmann::json::parse(json);
  for (const auto& [key, value] : parsed.items()) keys.push_back(key);
  return keys;
}

std::vector<std::string> missing(const std::string& json, const std::vector<std::string>& wanted) {
  std::vector<std::string> out;
  const std::vector<std::string> keys = keys_of(json);
  for (const std::string& key : wanted)
    if (std::find(keys.begin(), keys.end(), key) == keys.end()) out.push_back(key);
  return out;
}

std::string alert_topic(const Topics& topics) {
  for (const auto& [topic, payload] : topics)
    if (topic.starts_with(root + "alert/at-field-capacity")) return topic;
  return "";
}

bool has_alert(const Topics& topics) {
  return !alert_topic(topics).empty();
}

}  // namespace

TEST_CASE("every_topic_is_retained_with_its_keys_and_holds_its_schema") {
  const Broker broker;
  Gleyd gleyd(farm_for(broker));
  load(gleyd, {.rain_mm = "3", .et0_mm = "1"});
  gleyd.start_online();
  broker.publish("weather/yard/rain", "1.2");
  REQUIRE(gleyd.eventually_stored(1));
  Topics topics;
  REQUIRE(eventually_retained(broker, [&](const Topics& seen) {
    topics = seen;
    return seen.count(root + "field/top/water") > 0 && seen.count(root + "board") > 0 &&
           nlohmann::json::parse(seen.at(root + "field/top/water"))["rain_today_mm"] == 1.2 &&
           has_alert(seen);
  }));

  // Design, section 5.3.
  CHECK(topics[root + "state"] == "online");
  CHECK(missing(topics[root + "board"], {"time", "farm", "fields", "alerts", "forecast_time"}) ==
        std::vector<std::string>{});
  const auto field = nlohmann::json::parse(topics[root + "board"])["fields"].at(0);
  CHECK(missing(field.dump(), {"id", "name", "wetness", "topsoil_deficit_mm", "surplus_mm",
                               "machines", "spreading"}) == std::vector<std::string>{});
  CHECK(field["machines"].contains("drill"));
  CHECK(field["spreading"].contains("nitrogen"));
  CHECK(missing(topics[root + "field/top/water"],
                {"time", "date", "wetness", "depletion_mm", "topsoil_deficit_mm", "surplus_mm",
                 "theta", "rain_today_mm", "et0_mm", "drains", "uncertainty_mm", "flags"}) ==
        std::vector<std::string>{});
  CHECK(missing(topics[root + "field/top/machine/drill"],
                {"time", "verdict", "margin", "reasons", "until", "next_window"}) ==
        std::vector<std::string>{});
  CHECK(missing(topics[root + "field/top/spreading/nitrogen"],
                {"time", "advice", "reasons", "next_window", "n_at_risk_kg_ha", "caution"}) ==
        std::vector<std::string>{});
  CHECK_FALSE(topics[root + "field/top/sign"].empty());
  CHECK(missing(topics[alert_topic(topics)],
                {"id", "fields", "event", "severity", "urgency", "certainty", "onset", "headline",
                 "description", "instruction"}) == std::vector<std::string>{});

  CHECK(schema_faults("board", topics[root + "board"]) == "");
  CHECK(schema_faults("field-water", topics[root + "field/top/water"]) == "");
  CHECK(schema_faults("field-machine", topics[root + "field/top/machine/drill"]) == "");
  CHECK(schema_faults("field-spreading", topics[root + "field/top/spreading/nitrogen"]) == "");
  CHECK(schema_faults("alert", topics[alert_topic(topics)]) == "");
  CHECK(schema_faults("alert", "{\"id\":1}") != "");
}

TEST_CASE("state_is_offline_after_a_kill_and_after_a_stop") {
  const Broker broker;
  Gleyd gleyd(farm_for(broker));
  const auto state_is = [&](const std::string& word) {
    return eventually_retained(broker, [&](const Topics& seen) {
      const auto found = seen.find(root + "state");
      return found != seen.end() && found->second == word;
    });
  };
  for (const int signal : {SIGKILL, SIGTERM}) {
    gleyd.start();
    CHECK(state_is("online"));
    CHECK(gleyd.stop(signal) == (signal == SIGTERM ? 0 : 128 + SIGKILL));
    CHECK(state_is("offline"));
  }
}

TEST_CASE("an_alert_is_retained_while_it_holds_and_removed_when_it_ends") {
  const Broker broker;
  Gleyd gleyd(farm_for(broker));
  load(gleyd, {.rain_mm = "0", .et0_mm = "3"});
  gleyd.start_online();
  REQUIRE(eventually_retained(broker,
                              [](const Topics& seen) { return seen.count(root + "board") > 0; }));
  CHECK_FALSE(has_alert(retained(broker)));

  load(gleyd, {.rain_mm = "8", .et0_mm = "1"});
  gleyd.reload();
  REQUIRE(eventually_retained(broker, has_alert));
  const std::string topic = alert_topic(retained(broker));
  const auto alert = nlohmann::json::parse(retained(broker).at(topic));
  CHECK(alert["event"] == "at field capacity");
  CHECK(alert["fields"] == nlohmann::json{"top"});

  SECTION("while the daemon runs") {
    load(gleyd, {.rain_mm = "0", .et0_mm = "3"});
    gleyd.reload();
    CHECK(eventually_retained(broker, [](const Topics& seen) { return !has_alert(seen); }));
  }
  SECTION("while it does not, at its next start") {
    gleyd.stop(SIGKILL);
    load(gleyd, {.rain_mm = "0", .et0_mm = "3"});
    CHECK(has_alert(retained(broker)));
    gleyd.start_online();
    CHECK(eventually_retained(broker, [](const Topics& seen) { return !has_alert(seen); }));
  }
  const auto alerts = gleyd.json("/api/board")["alerts"];
  for (const auto& own : alerts) CHECK(own["event"] != "at field capacity");
}

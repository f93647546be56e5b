#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/raw_client.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

std::vector<std::string> fields_on_board(const Gleyd& gleyd) {
  std::vector<std::string> ids;
  const auto board = gleyd.json("/api/board");
  for (const auto& field : board["fields"]) ids.push_back(field["id"]);
  return ids;
}

bool has_topics_of(const Topics& topics, const std::string& field) {
  for (const auto& [topic, payload] : topics)
    if (topic.starts_with("gley/alder/field/" + field + "/")) return true;
  return false;
}

}  // namespace

TEST_CASE("a_reading_changes_the_board_and_is_told_to_open_pages") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.load(days_up_to_yesterday(90, {.rain_mm = "0", .et0_mm = "2"}));
  gleyd.start_online();
  REQUIRE(eventually([&] { return gleyd.json("/healthz")["notes"].empty(); }));
  const auto before = gleyd.json("/api/board")["fields"].at(0);
  REQUIRE(before["topsoil_deficit_mm"] > 20.0);

  RawClient page(gleyd.farm.http_port);
  page.send("GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n");
  REQUIRE(page.read_until("text/event-stream"));
  REQUIRE(page.read_until("\r\n\r\n"));
  page.forget();
  broker.publish("weather/yard/rain", "12.5");
  CHECK(page.read_until("data:"));
  CHECK(eventually([&] {
    const auto after = gleyd.json("/api/board")["fields"].at(0);
    return after["topsoil_deficit_mm"].get<double>() <
           before["topsoil_deficit_mm"].get<double>() - 10.0;
  }));
  CHECK(gleyd.json("/api/field/top")["water"]["rain_today_mm"] == 12.5);
}

TEST_CASE("a_reload_takes_up_a_good_configuration_and_refuses_a_bad_one") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start_online();
  broker.publish("weather/yard/rain", "2.5");
  REQUIRE(gleyd.eventually_stored(1));
  const auto rain_of = [&](const std::string& field) {
    return gleyd.json("/api/field/" + field)["water"]["rain_today_mm"];
  };

  gleyd.farm.fields = field_text("low", {.soil = "clay", .drainage = "slow", .crop = "pasture"}) +
                      field_text("top");
  gleyd.configure();
  gleyd.reload();
  const std::vector<std::string> both{"low", "top"};
  REQUIRE(eventually([&] { return fields_on_board(gleyd) == both; }));
  CHECK(rain_of("top") == 2.5);
  CHECK(rain_of("low") == 2.5);
  REQUIRE(
      eventually_retained(broker, [](const Topics& seen) { return has_topics_of(seen, "low"); }));

  const std::string good = gleyd.farm.fields;
  gleyd.farm.fields = good + "drainige = \"slow\"\n";
  gleyd.configure();
  gleyd.reload();
  REQUIRE(gleyd.eventually_logs("farm.toml:"));
  CHECK_THAT(gleyd.log(), Contains("drainige") && Contains("drainage"));
  CHECK(fields_on_board(gleyd) == both);

  gleyd.farm.fields = field_text("top");
  gleyd.configure();
  gleyd.reload();
  CHECK(eventually([&] { return fields_on_board(gleyd) == std::vector<std::string>{"top"}; }));
  CHECK(eventually_retained(broker, [](const Topics& seen) {
    return !has_topics_of(seen, "low") && has_topics_of(seen, "top");
  }));
}

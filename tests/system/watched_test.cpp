#include <catch2/catch.hpp>

#include "tests/system/foreign_judge.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

HttpAnswer metrics_for(const Gleyd& gleyd, const std::string& accept) {
  return gleyd.ask({.line = "GET /metrics", .headers = "Accept: " + accept + "\r\n"});
}

}  // namespace

TEST_CASE("a_collector_reads_the_metrics_in_both_formats") {
  const Broker broker;
  FarmText farm(broker.port());
  farm.more = forecast_text;
  Gleyd gleyd(farm);
  gleyd.start_online();
  broker.publish("weather/yard/rain", "0.6");
  broker.publish("weather/yard/rain", "wet");
  const auto hour_ago = std::chrono::system_clock::now() - std::chrono::hours{1};
  broker.publish(
      "weather/yard/pack",
      senml_pack({{"temperature", std::chrono::floor<std::chrono::seconds>(hour_ago), 9.5}}));
  REQUIRE(gleyd.eventually_stored(2));

  const HttpAnswer open =
      metrics_for(gleyd, "application/openmetrics-text;version=1.0.0,text/plain;q=0.5");
  CHECK_THAT(open.head, Contains("application/openmetrics-text; version=1.0.0"));
  CHECK(metrics_faults("openmetrics", open.body) == "");
  const HttpAnswer text = metrics_for(gleyd, "text/plain");
  CHECK_THAT(text.head, Contains("text/plain; version=0.0.4"));
  CHECK(metrics_faults("text", text.body) == "");
  // The judge does judge.
  CHECK(metrics_faults("openmetrics", text.body) != "");
  CHECK(metrics_faults("text", text.body + "gley_readings_total{outcome=\"stored\"} 2\n") != "");

  CHECK(gleyd.metric("gley_readings_total{outcome=\"not_a_number\"}") == 1.0);
  CHECK(gleyd.metric("gley_readings_total{outcome=\"too_large\"}") == 0.0);
  CHECK(gleyd.metric("gley_store_write_seconds_count") == 2.0);
  CHECK(gleyd.metric("gley_reading_delay_seconds_bucket{le=\"600.0\"}") == 0.0);
  CHECK(gleyd.metric("gley_reading_delay_seconds_bucket{le=\"21600.0\"}") == 1.0);
  CHECK(gleyd.metric("gley_messages_received_total") == 3.0);
  CHECK(eventually([&] { return gleyd.metric("gley_reading_to_board_seconds_count") >= 1.0; }));
  CHECK(gleyd.metric("gley_healthy") == 1.0);
}

TEST_CASE("health_fails_once_the_broker_is_away_longer_than_allowed_and_mends") {
  Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  std::string text = gleyd.farm.text();
  text.insert(text.find("[mqtt]\n") + 7, "away_after_min = 0.02\n");
  (void)gleyd.write("farm.toml", text);
  gleyd.start_online();
  CHECK(gleyd.json("/healthz")["status"] == "ok");

  broker.stop(SIGKILL);
  REQUIRE(eventually([&] { return gleyd.get("/healthz").status == 503; }));
  const auto health = gleyd.json("/healthz");
  CHECK(health["status"] == "ill");
  CHECK(health["reasons"].at(0)["reason"] == "broker_away");
  CHECK_THAT(health["reasons"].at(0)["text"].get<std::string>(),
             Contains("127.0.0.1:" + std::to_string(broker.port())));

  broker.start();
  CHECK(eventually([&] { return gleyd.get("/healthz").status == 200; }));
}

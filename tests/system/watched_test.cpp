#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/raw_client.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

/// The head and body of /metrics for a collector that accepts this.
std::pair<std::string, std::string> metrics_for(const Gleyd& gleyd, const std::string& accept) {
  gley::daemon::RawClient client(gleyd.farm.http_port);
  client.send("GET /metrics HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\nAccept: " + accept +
              "\r\n\r\n");
  REQUIRE(client.read_to_close(patience));
  const std::string& text = client.received();
  const auto end = text.find("\r\n\r\n");
  return {text.substr(0, end), text.substr(end + 4)};
}

/// What the collector's own parser finds wrong; empty: nothing.
std::string faults_in(const Gleyd& gleyd, const std::string& form, const std::string& body) {
  const auto file = gleyd.write("metrics", body);
  const auto said = gleyd.directory() / "faults";
  const int code =
      run({"/usr/bin/python3", GLEY_SOURCE_DIR "/tests/schema/metrics.py", form, file.string()},
          {.out = said, .err = said});
  return code == 0 ? "" : "exit " + std::to_string(code) + ": " + read_file(said);
}

}  // namespace

TEST_CASE("a_collector_reads_the_metrics_in_both_formats") {
  const Broker broker;
  FarmText farm;
  farm.mqtt_port = broker.port();
  farm.more = "[forecast]\ntopic = \"weather/forecast\"\n";
  Gleyd gleyd(farm);
  gleyd.start_online();
  publish_with_mosquitto_pub(broker.port(), "weather/yard/rain", "0.6");
  publish_with_mosquitto_pub(broker.port(), "weather/yard/rain", "wet");
  const auto now = std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now());
  const auto hour_ago = (now - std::chrono::hours{1}).time_since_epoch().count();
  publish_with_mosquitto_pub(
      broker.port(), "weather/yard/pack",
      R"([{"n":"temperature","u":"Cel","t":)" + std::to_string(hour_ago) + R"(,"v":9.5}])");
  REQUIRE(gleyd.eventually_stored(2));

  const auto [open_head, open] =
      metrics_for(gleyd, "application/openmetrics-text;version=1.0.0,text/plain;q=0.5");
  CHECK_THAT(open_head, Contains("application/openmetrics-text; version=1.0.0"));
  CHECK(faults_in(gleyd, "openmetrics", open) == "");
  const auto [text_head, text] = metrics_for(gleyd, "text/plain");
  CHECK_THAT(text_head, Contains("text/plain; version=0.0.4"));
  CHECK(faults_in(gleyd, "text", text) == "");
  // The judge does judge.
  CHECK(faults_in(gleyd, "openmetrics", text) != "");
  CHECK(faults_in(gleyd, "text", text + "gley_readings_total{outcome=\"stored\"} 2\n") != "");

  CHECK(gleyd.metric("gley_readings_total{outcome=\"not_a_number\"}") == 1.0);
  CHECK(gleyd.metric("gley_readings_total{outcome=\"too_large\"}") == 0.0);
  CHECK(gleyd.metric("gley_store_write_seconds_count") == 2.0);
  CHECK(gleyd.metric("gley_reading_delay_seconds_bucket{le=\"600.0\"}") == 0.0);
  CHECK(gleyd.metric("gley_reading_delay_seconds_bucket{le=\"21600.0\"}") == 1.0);
  CHECK(gleyd.metric("gley_messages_received_total") == 3.0);
  CHECK(eventually(patience,
                   [&] { return gleyd.metric("gley_reading_to_board_seconds_count") >= 1.0; }));
  CHECK(gleyd.metric("gley_healthy") == 1.0);
}

TEST_CASE("health_fails_once_the_broker_is_away_longer_than_allowed_and_mends") {
  Broker broker;
  FarmText farm;
  farm.mqtt_port = broker.port();
  Gleyd gleyd(farm);
  std::string text = farm.text();
  text.insert(text.find("[mqtt]\n") + 7, "away_after_min = 0.02\n");
  (void)gleyd.write("farm.toml", text);
  gleyd.start_online();
  CHECK(gleyd.json("/healthz")["status"] == "ok");

  broker.stop(SIGKILL);
  REQUIRE(eventually(patience, [&] { return gleyd.get("/healthz").status == 503; }));
  const auto health = gleyd.json("/healthz");
  CHECK(health["status"] == "ill");
  CHECK(health["reasons"].at(0)["reason"] == "broker_away");
  CHECK_THAT(health["reasons"].at(0)["text"].get<std::string>(),
             Contains("127.0.0.1:" + std::to_string(broker.port())));

  broker.start();
  CHECK(eventually(patience, [&] { return gleyd.get("/healthz").status == 200; }));
}

#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;

namespace {

bool is_online(const Topics& topics) {
  const auto state = topics.find("gley/alder/state");
  return state != topics.end() && state->second == "online" && topics.count("gley/alder/board") > 0;
}

}  // namespace

TEST_CASE("without_a_broker_the_daemon_runs_says_so_and_connects_when_it_comes") {
  Broker broker;
  broker.stop(SIGKILL);
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start();
  const HttpAnswer health = gleyd.get("/healthz");
  CHECK(health.status == 200);
  CHECK_THAT(health.body, Contains("\"status\":\"ok\"") && Contains("broker_away"));
  const std::string port = std::to_string(broker.port());
  REQUIRE(gleyd.eventually_logs("127.0.0.1:" + port + ": cannot connect"));
  CHECK(gleyd.eventually_logs("check that the broker runs, and host and port under [mqtt]"));
  CHECK(gleyd.metric("gley_broker_connected") == 0.0);
  CHECK_THAT(gleyd.get("/").body, Contains("127.0.0.1:" + port));
  CHECK_THAT(gleyd.command("today").out, Contains("127.0.0.1:" + port));

  broker.start();
  REQUIRE(eventually_retained(broker, is_online));
  CHECK(eventually([&] { return gleyd.json("/healthz")["notes"].empty(); }));
  broker.publish("weather/yard/rain", "0.6");
  CHECK(gleyd.eventually_stored(1));
}

TEST_CASE("a_broker_that_lost_everything_gets_subscriptions_and_retained_topics_again") {
  Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start_online();
  broker.publish("weather/yard/rain", "0.6");
  REQUIRE(gleyd.eventually_stored(1));
  REQUIRE(eventually_retained(broker, is_online));
  const Topics before = retained(broker);

  broker.stop(SIGKILL);
  REQUIRE(eventually(
      [&] { return gleyd.get("/healthz").body.find("broker_away") != std::string::npos; }));
  broker.start();
  Topics after;
  CHECK(eventually_retained(broker, [&](const Topics& topics) {
    after = topics;
    return std::all_of(before.begin(), before.end(),
                       [&](const auto& known) { return topics.contains(known.first); });
  }));
  for (const auto& [topic, payload] : before) {
    INFO(topic);
    CHECK(after.count(topic) == 1);
  }
  broker.publish("weather/yard/rain", "0.8");
  CHECK(gleyd.eventually_stored(2));
}

#include <catch2/catch.hpp>

#include "tests/system/faults.hpp"
#include "tests/system/hours_of_rain.hpp"

using namespace gley::tests;

TEST_CASE("a_write_to_the_broker_that_fails_has_a_new_client_go_on_with_nothing_lost") {
  const Broker broker;
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  Faults faults(gleyd);
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 10);
  REQUIRE(gleyd.eventually_stored(10));
  CHECK(gleyd.metric("gley_broker_clients_replaced_total") == 0.0);
  REQUIRE(eventually([&] { return gleyd.metric("gley_messages_waiting") == 0.0; }));

  faults.fail_publishes(1);
  send_hours(broker, gleyd, 10, 20);
  REQUIRE(eventually([&] { return gleyd.metric("gley_broker_clients_replaced_total") == 1.0; }));
  // The session is the broker's: what comes while no client is there waits.
  send_hours(broker, gleyd, 20, 40);
  CHECK(gleyd.eventually_stored(40));
  CHECK(stored_rows(gleyd.store()) == 40);
  CHECK(eventually([&] { return gleyd.metric("gley_broker_connected") == 1.0; }));
  CHECK(gleyd.metric("gley_broker_connects_total") == 2.0);
  CHECK(eventually_retained(broker, [](const auto& topics) {
    const auto state = topics.find("gley/alder/state");
    return state != topics.end() && state->second == "online";
  }));
  CHECK(gleyd.metric("gley_broker_clients_replaced_total") == 1.0);
}

#include "tests/system/broker.hpp"

#include <catch2/catch.hpp>

using gley::tests::Broker;
using gley::tests::durable_broker;
using gley::tests::eventually;
using gley::tests::Listener;
using gley::tests::message_on;
using gley::tests::publish_with_mosquitto_pub;
using gley::tests::read_file;

TEST_CASE("test_broker_carries_messages_and_restarts_on_its_port") {
  Broker broker;
  {
    const Listener listener(broker.port(), "weather/#");
    publish_with_mosquitto_pub(broker.port(), "weather/rain", "0.2");
    CHECK(eventually(std::chrono::seconds(10), [&] {
      return listener.lines() == std::vector<std::string>{"weather/rain 0.2"};
    }));
  }
  broker.stop(SIGKILL);
  CHECK_FALSE(gley::tests::port_open(broker.port()));
  broker.start();
  publish_with_mosquitto_pub(broker.port(), "a", "kept", {"-r"});
  CHECK(message_on(broker.port(), "a") == "kept");
  CHECK(message_on(broker.port(), "b") == std::nullopt);
}

TEST_CASE("durable_test_broker_keeps_retained_messages_over_a_kill") {
  const gley::tests::TempDir directory;
  Broker broker(durable_broker(directory.path()));
  publish_with_mosquitto_pub(broker.port(), "a", "kept", {"-r"});
  // It acknowledges first and saves right after.
  REQUIRE(eventually(std::chrono::seconds(20), [&] {
    return read_file(directory.path() / "mosquitto.db").find("kept") != std::string::npos;
  }));
  broker.stop(SIGKILL);
  broker.start();
  CHECK(message_on(broker.port(), "a") == "kept");
}

#include "daemon/bus/mqtt_client.hpp"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <mutex>
#include <stdexcept>
#include <thread>

#include "daemon/readings/payload.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/system/broker.hpp"
#include "tests/system/fake_broker.hpp"

using namespace gley::daemon;
using namespace gley::tests;
using namespace std::chrono_literals;

namespace {

MqttConfig config_for(std::uint16_t port) {
  MqttConfig config;
  config.host = "127.0.0.1";
  config.port = port;
  config.client_id = "gley-test";
  config.root = "gley/test";
  return config;
}

struct Received {
  std::string topic;
  std::string payload;
  bool timeless_is_unknown = false;
  friend bool operator==(const Received&, const Received&) = default;
};

/// Records what the client tells its owner. Its own mutex stands for the owner's thread.
class Owner {
 public:
  MqttHandlers handlers() {
    return {.post = [](std::function<void()> task) { task(); },
            .on_message =
                [this](const Message& message) {
                  const std::lock_guard lock(mutex_);
                  received_.push_back({std::string(message.topic), std::string(message.payload),
                                       message.timeless_is_unknown});
                },
            .on_connected = {},
            .on_disconnected =
                [this](const std::string& reason) {
                  const std::lock_guard lock(mutex_);
                  reasons_.push_back(reason);
                },
            .on_subscribed =
                [this](const std::vector<std::string>&) {
                  const std::lock_guard lock(mutex_);
                  ++subscribed_;
                }};
  }
  [[nodiscard]] std::vector<Received> received() const {
    const std::lock_guard lock(mutex_);
    return received_;
  }
  [[nodiscard]] bool has(const std::string& payload) const {
    const auto all = received();
    return std::any_of(all.begin(), all.end(),
                       [&](const Received& one) { return one.payload == payload; });
  }
  [[nodiscard]] int subscribed() const {
    const std::lock_guard lock(mutex_);
    return subscribed_;
  }
  [[nodiscard]] std::vector<std::string> reasons() const {
    const std::lock_guard lock(mutex_);
    return reasons_;
  }

 private:
  mutable std::mutex mutex_;
  std::vector<Received> received_;
  std::vector<std::string> reasons_;
  int subscribed_ = 0;
};

const std::vector<std::string> on_weather{"weather/+"};

/// A client that has been started, and its owner.
struct Started {
  Owner owner;
  MqttClient client;

  explicit Started(const MqttConfig& config, const std::vector<std::string>& filters = {})
      : client(config, owner.handlers()) {
    if (!filters.empty()) client.subscribe_to(filters);
    client.start();
  }
};

/// Once the state is seen on the broker, the subscriptions stand.
bool state_is(const Broker& broker, const std::string& word) {
  return eventually([&] { return message_on(broker.port(), "gley/test/state") == word; });
}

}  // namespace

TEST_CASE("messages_arrive_and_results_are_retained") {
  const Broker broker;
  Started ours(config_for(broker.port()), on_weather);
  REQUIRE(state_is(broker, "online"));
  broker.publish("weather/rain", "0.2");
  REQUIRE(eventually([&] { return ours.owner.has("0.2"); }));
  // The first connect of a client the broker does not know: nothing can have waited.
  CHECK(ours.owner.received() == std::vector<Received>{{"weather/rain", "0.2", false}});
  for (int i = 0; i < 1000; ++i) ours.client.publish({"gley/test/board", std::to_string(i), true});
  CHECK(eventually([&] { return message_on(broker.port(), "gley/test/board") == "999"; }));
  CHECK(ours.client.status().connected);
  CHECK(ours.client.status().publish_failures == 0);
  CHECK(ours.client.status().received == 1);
}

TEST_CASE("subscriptions_can_change_while_connected") {
  const Broker broker;
  Started ours(config_for(broker.port()), {"a"});
  REQUIRE(state_is(broker, "online"));
  ours.client.subscribe_to({"b"});
  REQUIRE(eventually([&] { return ours.owner.subscribed() == 2; }));
  REQUIRE(eventually([&] {
    broker.publish("b", "in b");
    return ours.owner.has("in b");
  }));
  broker.publish("a", "in a");
  broker.publish("b", "after");
  REQUIRE(eventually([&] { return ours.owner.has("after"); }));
  CHECK_FALSE(ours.owner.has("in a"));
}

TEST_CASE("a_broker_that_restarts_without_memory_is_subscribed_to_again") {
  Broker broker;
  Started ours(config_for(broker.port()), on_weather);
  REQUIRE(state_is(broker, "online"));
  broker.stop(SIGKILL);
  REQUIRE(eventually([&] { return !ours.client.status().connected; }));
  REQUIRE(ours.owner.reasons().size() == 1);
  CHECK_FALSE(ours.client.status().last_error.empty());
  ours.client.publish({"gley/test/board", "said while away", true});
  broker.start();
  REQUIRE(state_is(broker, "online"));
  CHECK(ours.owner.subscribed() == 2);
  broker.publish("weather/rain", "after");
  CHECK(eventually([&] { return ours.owner.has("after"); }));
  CHECK(eventually(
      [&] { return message_on(broker.port(), "gley/test/board") == "said while away"; }));
}

TEST_CASE("online_is_said_on_a_connection_that_listens_and_never_carried_to_the_next") {
  // Storing is slow, and the library waits for it: `online` is often with it, and not written, when
  // the connection goes. The mark is all that is subscribed to: `online` is due with the first
  // message.
  constexpr int messages = 60;
  const std::vector<Cut> cuts(6, {.whole_messages = 7, .bytes = 9, .way = Cut::Way::close});
  FakeBroker broker("weather/rain", std::vector<std::string>(messages, "0.2"), cuts);
  MqttClient client(config_for(broker.port()),
                    {.post = [](std::function<void()> task) { task(); },
                     .on_message = [](const Message&) { std::this_thread::sleep_for(5ms); },
                     .on_connected = {},
                     .on_disconnected = {},
                     .on_subscribed = {}});
  client.start();
  REQUIRE(eventually(60s, [&] { return broker.acknowledged() == messages; }));
  CHECK(eventually([&] { return client.status().connected && broker.online() > 0; }));
  CHECK(broker.online_too_soon() == 0);
  WARN("mqtt_client_test: " << client.status().clients_replaced << " clients made anew");
}

TEST_CASE("five_thousand_messages_are_each_committed_in_the_callback") {
  const Broker broker({"max_queued_messages 0"});
  const ScratchDirectory directory;
  const auto file = directory.path() / "farm.db";
  auto database = open_store(file, Durability::process);
  Inbox inbox(file, Durability::process);
  const auto used = [&] {
    return database.number("SELECT count(*) FROM reading WHERE status = 0");
  };

  FarmConfig farm;
  StationConfig station;
  station.id = "yard";
  ReadingMap map;
  map.topic = "weather/rain";
  map.unit = "mm";
  map.form = ReadingForm::interval;
  station.readings.push_back(map);
  farm.stations.push_back(station);
  const TopicMap topics(farm);

  Owner owner;
  auto handlers = owner.handlers();
  const Instant arrival{1700000000s};
  handlers.on_message = [&](const Message& message) {
    inbox.store(
        decode(topics, message.topic, message.payload, arrival, message.timeless_is_unknown),
        arrival);
  };
  MqttClient client(config_for(broker.port()), handlers);
  client.subscribe_to(topics.filters());
  client.start();
  REQUIRE(state_is(broker, "online"));

  constexpr int count = 5000;
  const auto lines = directory.path() / "lines";
  {
    std::ofstream out(lines);
    for (int i = 0; i < count; ++i) {
      out << R"([{"n":"rain","u":"mm","v":0.2,"t":)" << 1699990000 + i << "}]\n";
    }
  }
  broker.publish_lines("weather/rain", lines);
  CHECK(eventually([&] { return used() >= count; }));
  broker.publish_lines("weather/rain", lines);
  CHECK(eventually([&] { return client.status().received == 2 * count; }));
  CHECK(used() == count);
}

TEST_CASE("what_waited_in_the_broker_has_no_known_time") {
  const Broker broker({"max_queued_messages 0"});
  {
    const Started ours(config_for(broker.port()), on_weather);
    REQUIRE(state_is(broker, "online"));
  }
  const ScratchDirectory directory;
  const auto lines = directory.path() / "lines";
  {
    std::ofstream out(lines);
    for (int i = 0; i < 500; ++i) out << "waited" << i << '\n';
  }
  broker.publish_lines("weather/rain", lines);
  const Started ours(config_for(broker.port()), on_weather);
  REQUIRE(state_is(broker, "online"));
  broker.publish("weather/rain", "live");
  REQUIRE(eventually([&] { return ours.owner.has("live"); }));
  const auto received = ours.owner.received();
  REQUIRE(received.size() == 501);
  for (const Received& one : received) {
    INFO(one.payload);
    CHECK(one.timeless_is_unknown == (one.payload != "live"));
  }
  CHECK_FALSE(ours.client.status().backlog);
}

TEST_CASE("a_retained_reading_has_no_known_time") {
  const Broker broker;
  broker.publish("weather/rain", "old", {"-r"});
  const Started ours(config_for(broker.port()), on_weather);
  REQUIRE(eventually([&] { return ours.owner.has("old"); }));
  broker.publish("weather/rain", "new", {"-r"});
  REQUIRE(eventually([&] { return ours.owner.has("new"); }));
  CHECK(ours.owner.received() ==
        std::vector<Received>{{"weather/rain", "old", true}, {"weather/rain", "new", false}});
}

TEST_CASE("a_message_that_cannot_be_stored_is_tried_again_and_said") {
  const Broker broker;
  Owner owner;
  auto handlers = owner.handlers();
  std::atomic<bool> disk_full{true};
  std::atomic<int> tries{0};
  handlers.on_message = [&, inner = handlers.on_message](const Message& message) {
    ++tries;
    if (disk_full) throw std::runtime_error("farm.db: database or disk is full");
    inner(message);
  };
  MqttClient client(config_for(broker.port()), handlers);
  client.subscribe_to({"weather/+"});
  client.start();
  REQUIRE(state_is(broker, "online"));
  broker.publish("weather/rain", "0.2");
  REQUIRE(eventually([&] { return tries >= 2; }));
  CHECK(client.status().not_storing == "farm.db: database or disk is full");
  // The owner is not held up meanwhile.
  const auto before = std::chrono::steady_clock::now();
  for (int i = 0; i < 100; ++i) client.publish({"gley/test/board", std::to_string(i), true});
  CHECK(std::chrono::steady_clock::now() - before < 500ms);
  disk_full = false;
  REQUIRE(eventually([&] { return owner.has("0.2"); }));
  CHECK(eventually([&] { return !client.status().not_storing.has_value(); }));
  CHECK(owner.received().size() == 1);
  CHECK(eventually([&] { return message_on(broker.port(), "gley/test/board") == "99"; }));
}

TEST_CASE("client_stopped_by_another_test_while_it_cannot_store", "[.]") {
  const char* port = std::getenv("GLEY_TEST_HELD_PORT");
  if (port == nullptr) return;
  Owner owner;
  auto handlers = owner.handlers();
  handlers.on_message = [](const Message&) { throw std::runtime_error("disk is full"); };
  MqttClient client(config_for(static_cast<std::uint16_t>(std::atoi(port))), handlers);
  client.subscribe_to({"weather/+"});
  client.start();
  REQUIRE(eventually([&] { return client.status().not_storing.has_value(); }));
}

TEST_CASE("a_message_not_stored_at_the_end_stays_with_the_broker") {
  const Broker broker;
  const ScratchDirectory directory;
  const auto output = directory.path() / "out";
  Process stuck({"/proc/self/exe", "client_stopped_by_another_test_while_it_cannot_store"},
                {.out = output,
                 .err = output,
                 .environment = {"GLEY_TEST_HELD_PORT=" + std::to_string(broker.port())}});
  REQUIRE(state_is(broker, "online"));
  broker.publish("weather/rain", "0.2");
  CHECK(stuck.wait() == 74);
  const Started ours(config_for(broker.port()), on_weather);
  REQUIRE(eventually([&] { return ours.owner.has("0.2"); }));
  CHECK(ours.owner.received() == std::vector<Received>{{"weather/rain", "0.2", true}});
}

TEST_CASE("user_and_password_open_a_guarded_broker_and_a_wrong_one_is_named") {
  const ScratchDirectory directory;
  const auto users = directory.path() / "users";
  REQUIRE(run({"mosquitto_passwd", "-b", "-c", users.string(), "gley", "right"}) == 0);
  Broker broker({"password_file " + users.string(), "allow_anonymous false"});
  const auto password = directory.path() / "password";
  auto config = config_for(broker.port());
  config.user = "gley";
  config.password_file = password;
  {
    std::ofstream(password) << "wrong\n";
    const Started ours(config);
    REQUIRE(eventually([&] { return !ours.client.status().last_error.empty(); }));
    CHECK_THAT(ours.client.status().last_error,
               Catch::Matchers::Contains("Not authorized; check user and pass"));
    // Put right at the broker, it needs no restart of ours.
    REQUIRE(run({"mosquitto_passwd", "-b", users.string(), "gley", "wrong"}) == 0);
    broker.stop();
    broker.start();
    CHECK(eventually([&] { return ours.owner.subscribed() == 1; }));
  }
  REQUIRE(run({"mosquitto_passwd", "-b", users.string(), "gley", "right"}) == 0);
  broker.stop();
  broker.start();
  std::ofstream(password) << "right\n";
  const Started ours(config);
  CHECK(eventually([&] { return ours.owner.subscribed() == 1; }));
  config.password_file = directory.path() / "absent";
  CHECK_THROWS_WITH(MqttClient(config, MqttHandlers{}),
                    Catch::Matchers::Contains("absent: cannot be read or its first line is empty"));
}

/// A key and a certificate for it that signs itself.
void make_certificate(const ScratchDirectory& directory, const std::string& key,
                      const std::string& file, const std::string& name) {
  REQUIRE(run({"openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256",
               "-nodes", "-days", "2", "-subj", "/CN=" + name, "-addext",
               "subjectAltName=DNS:" + name, "-keyout", key, "-out", file},
              {.err = directory.path() / "openssl"}) == 0);
}

TEST_CASE("over_tls_the_broker_must_be_the_one_it_says_it_is") {
  const ScratchDirectory directory;
  const auto certificate = (directory.path() / "cert.pem").string();
  const auto key = (directory.path() / "key.pem").string();
  make_certificate(directory, key, certificate, "localhost");
  const Broker broker({"certfile " + certificate, "keyfile " + key});
  auto config = config_for(broker.port());
  config.ca_file = certificate;
  {
    const Started ours(config);  // by number: not the name of the certificate
    REQUIRE(eventually([&] { return !ours.client.status().last_error.empty(); }));
    CHECK_FALSE(ours.client.status().connected);
    CHECK_THAT(ours.client.status().last_error, Catch::Matchers::Contains("(CA " + certificate));
  }
  config.host = "localhost";
  const Started ours(config);
  CHECK(eventually([&] { return ours.owner.subscribed() == 1; }));
}

TEST_CASE("a_broker_that_asks_for_a_certificate_takes_ours_and_no_client_without_one") {
  const ScratchDirectory directory;
  const auto file = [&](const char* name) { return (directory.path() / name).string(); };
  make_certificate(directory, file("key.pem"), file("cert.pem"), "localhost");
  make_certificate(directory, file("own-key.pem"), file("own-cert.pem"), "gley");
  const Broker broker({"certfile " + file("cert.pem"), "keyfile " + file("key.pem"),
                       "cafile " + file("own-cert.pem"), "require_certificate true"});
  auto config = config_for(broker.port());
  config.host = "localhost";
  config.ca_file = file("cert.pem");
  {
    const Started ours(config);
    REQUIRE(eventually([&] { return !ours.client.status().last_error.empty(); }));
    CHECK(ours.owner.subscribed() == 0);
  }
  config.certificate_file = file("own-cert.pem");
  config.key_file = file("own-key.pem");
  const Started ours(config);
  CHECK(eventually([&] { return ours.owner.subscribed() == 1; }));
}

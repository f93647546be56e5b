#include <catch2/catch.hpp>
#include <fstream>

#include "tests/system/gleyd.hpp"

using namespace gley::tests;
using namespace std::chrono_literals;

namespace {

const std::filesystem::path example = std::filesystem::path(GLEY_SOURCE_DIR) / "config/broker";

std::string password_of(const std::string& user) {
  return user + "-password";
}

/// A broker with the example's own lines; only its port and its files' places are the test's.
class GuardedBroker {
 public:
  GuardedBroker() {
    REQUIRE(run({"openssl", "req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256",
                 "-nodes", "-days", "2", "-subj", "/CN=localhost", "-addext",
                 "subjectAltName=IP:127.0.0.1", "-keyout", file("key.pem"), "-out", certificate()},
                {.err = file("openssl")}) == 0);
    std::filesystem::copy(example / "gley.acl", file("gley.acl"));
    // Brokers after Debian 12's will refuse lists that others can read.
    std::filesystem::permissions(
        file("gley.acl"), std::filesystem::perms::owner_read | std::filesystem::perms::owner_write);
    std::ofstream(file("users")).close();
    for (const char* user : {"gley", "yard", "brook", "display", "office", "forecast"})
      REQUIRE(run({"mosquitto_passwd", "-b", file("users"), user, password_of(user)}) == 0);
    broker_.emplace(settings());
  }

  [[nodiscard]] std::uint16_t port() const { return broker_->port(); }
  [[nodiscard]] std::string certificate() const { return file("cert.pem"); }

  /// Whether the client was let in; a refused message is not told in its exit code.
  bool publish(const std::string& user, const std::string& topic,
               const std::string& payload) const {
    return run(client("mosquitto_pub", user, topic, {"-m", payload}), quiet()) == 0;
  }
  /// The same, for whoever reads the topic later.
  bool leave(const std::string& user, const std::string& topic, const std::string& payload) const {
    return run(client("mosquitto_pub", user, topic, {"-m", payload, "-r"}), quiet()) == 0;
  }

  /// The first that a user gets to read on a filter within a second; the daemon's results are
  /// retained.
  [[nodiscard]] std::string read(const std::string& user, const std::string& filter) const {
    const ScratchDirectory own;
    const auto out = own.path() / "read";
    run(client("mosquitto_sub", user, filter, {"-v", "-C", "1", "-W", "1"}),
        {.out = out, .err = directory_.path() / "err"});
    return read_file(out);
  }

  [[nodiscard]] int connect_without_name() const {
    return run({"mosquitto_pub", "-h", "127.0.0.1", "-p", std::to_string(port()), "--cafile",
                certificate(), "-t", "weather/yard/rain", "-m", "1"},
               quiet());
  }

 private:
  [[nodiscard]] std::string file(const std::string& name) const {
    return (directory_.path() / name).string();
  }
  [[nodiscard]] Output quiet() const {
    return {.out = directory_.path() / "out", .err = directory_.path() / "err"};
  }

  [[nodiscard]] std::vector<std::string> settings() const {
    const std::string there = "/etc/mosquitto/gley/";
    std::vector<std::string> lines;
    std::ifstream conf(example / "gley.conf");
    for (std::string line; std::getline(conf, line);) {
      if (line.empty() || line.starts_with('#') || line.starts_with("listener")) continue;
      const auto at = line.find(there);
      if (at != std::string::npos) line.replace(at, there.size(), directory_.path().string() + "/");
      lines.push_back(line);
    }
    lines.push_back("persistence_location " + directory_.path().string() + "/");
    return lines;
  }

  [[nodiscard]] std::vector<std::string> client(const char* program, const std::string& user,
                                                const std::string& topic,
                                                std::vector<std::string> more) const {
    std::vector<std::string> argv{program,       "-h", "127.0.0.1", "-p", std::to_string(port()),
                                  "-V",          "5",  "-q",        "1",  "--cafile",
                                  certificate(), "-u", user,        "-P", password_of(user),
                                  "-t",          topic};
    argv.insert(argv.end(), more.begin(), more.end());
    return argv;
  }

  ScratchDirectory directory_;
  std::optional<Broker> broker_;
};

}  // namespace

TEST_CASE("the_example_broker_lets_each_client_do_its_own_and_no_more") {
  const GuardedBroker broker;
  FarmText farm(broker.port());
  farm.mqtt = "user = \"gley\"\npassword_file = \"mqtt-password\"\nca_file = \"" +
              broker.certificate() + "\"\n";
  Gleyd gleyd(farm);
  (void)gleyd.write("mqtt-password", password_of("gley") + "\n");
  gleyd.start();
  REQUIRE(eventually([&] { return gleyd.metric("gley_broker_connected") == 1.0; }));
  CHECK_THAT(gleyd.log(), !Catch::Matchers::Contains("refuses"));

  SECTION("a station is heard on its own topics and on no others") {
    CHECK(broker.publish("brook", "weather/yard/rain", "7"));
    CHECK(broker.leave("brook", "gley/alder/field/top/sign", "carries"));
    CHECK(broker.publish("yard", "weather/yard/rain", "0.4"));
    CHECK(gleyd.eventually_stored(1));
    CHECK(gleyd.metric("gley_messages_received_total") == 1.0);
    CHECK_THAT(broker.read("gley", "gley/alder/field/top/sign"),
               !Catch::Matchers::Contains("carries"));
    CHECK_THAT(broker.read("yard", "weather/#"), !Catch::Matchers::Contains("weather/"));
    CHECK_THAT(broker.read("yard", "gley/alder/#"), !Catch::Matchers::Contains("gley/"));
  }
  SECTION("a display reads results, and neither writes nor reads what is told") {
    CHECK_THAT(broker.read("display", "gley/alder/state"), Catch::Matchers::Contains("online"));
    CHECK(broker.leave("display", "gley/alder/state", "offline"));
    CHECK(broker.publish("display", "weather/yard/rain", "50"));
    CHECK(broker.publish("display", "gley/alder/tell/report", "{}"));
    CHECK(broker.publish("office", "gley/alder/tell/report", "{}"));
    CHECK(gleyd.eventually_logs("not taken: gley/alder/tell/report"));
    CHECK(gleyd.metric("gley_messages_received_total") == 1.0);
    CHECK_THAT(broker.read("gley", "gley/alder/state"), Catch::Matchers::Contains("online"));
  }
  SECTION("nobody is let in without a name and its password") {
    CHECK(broker.connect_without_name() != 0);
    CHECK_FALSE(broker.publish("stranger", "weather/yard/rain", "1"));
  }
}

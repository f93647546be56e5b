#include <sys/ptrace.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/un.h>
#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "tests/system/gleyd.hpp"

using namespace gley::tests;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// Stands where systemd would: receives what a service sends to NOTIFY_SOCKET (sd_notify(3)).
class Notices {
 public:
  Notices() : socket_(::socket(AF_UNIX, SOCK_DGRAM | SOCK_NONBLOCK | SOCK_CLOEXEC, 0)) {
    sockaddr_un address{};
    address.sun_family = AF_UNIX;
    path().copy(address.sun_path, sizeof address.sun_path - 1);
    REQUIRE(::bind(socket_, reinterpret_cast<const sockaddr*>(&address), sizeof address) == 0);
  }
  ~Notices() { ::close(socket_); }
  Notices(const Notices&) = delete;
  Notices& operator=(const Notices&) = delete;

  [[nodiscard]] std::string path() const { return (directory_.path() / "notify").string(); }

  /// All that came so far, a line each.
  const std::string& all() {
    char bytes[4096];
    for (ssize_t n = 0; (n = ::recv(socket_, bytes, sizeof bytes, 0)) > 0;)
      text_.append(bytes, static_cast<std::size_t>(n)) += '\n';
    return text_;
  }
  void forget() {
    (void)all();
    text_.clear();
  }
  [[nodiscard]] bool eventually_says(const std::string& words) {
    return eventually([&] { return all().find(words) != std::string::npos; });
  }

 private:
  ScratchDirectory directory_;
  int socket_;
  std::string text_;
};

/// Stops one thread of a child and lets the others run, until destroyed (ptrace(2)).
class StoppedThread {
 public:
  explicit StoppedThread(pid_t thread) : thread_(thread) {
    REQUIRE(::ptrace(PTRACE_SEIZE, thread_, nullptr, nullptr) == 0);
    REQUIRE(::ptrace(PTRACE_INTERRUPT, thread_, nullptr, nullptr) == 0);
    REQUIRE(::waitpid(thread_, nullptr, __WALL) == thread_);
  }
  ~StoppedThread() { ::ptrace(PTRACE_DETACH, thread_, nullptr, nullptr); }
  StoppedThread(const StoppedThread&) = delete;
  StoppedThread& operator=(const StoppedThread&) = delete;

 private:
  pid_t thread_;
};

}  // namespace

TEST_CASE("systemd_is_told_of_start_reload_and_end") {
  Notices systemd;
  Gleyd gleyd(FarmText{});
  gleyd.environment = {"NOTIFY_SOCKET=" + systemd.path()};
  gleyd.start();
  REQUIRE(systemd.eventually_says("READY=1\nSTATUS=Alder Farm: 1 fields, board on http://127"));
  CHECK(systemd.eventually_says("WATCHDOG=1"));

  systemd.forget();
  gleyd.reload();
  REQUIRE(systemd.eventually_says("RELOADING=1\nMONOTONIC_USEC="));
  CHECK(systemd.eventually_says("READY=1\nSTATUS=Alder Farm: 1 fields"));

  systemd.forget();
  (void)gleyd.write("farm.toml", "[farm]\nid = 3\n");
  gleyd.reload();
  REQUIRE(systemd.eventually_says("RELOADING=1"));
  CHECK(systemd.eventually_says(
      "READY=1\nSTATUS=the configuration of before stays: " + gleyd.config().string() + ":"));

  CHECK(gleyd.stop() == 0);
  CHECK_THAT(systemd.all(), Contains("STOPPING=1"));
}

TEST_CASE("the_watchdog_is_put_off_only_while_the_thread_that_owns_the_state_turns") {
  Notices systemd;
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.environment = {"NOTIFY_SOCKET=" + systemd.path()};
  gleyd.start_online();
  REQUIRE(systemd.eventually_says("WATCHDOG=1"));
  {
    const StoppedThread state(gleyd.pid());
    systemd.forget();
    // The threads of the broker's client go on and keep the connection, as a timer of its own
    // would.
    broker.publish("weather/yard/rain", "0.6");
    const auto three_turns = std::chrono::seconds(3);
    CHECK_FALSE(eventually(three_turns, [&] { return !systemd.all().empty(); }));
    CHECK(message_on(broker.port(), "gley/alder/state") == "online");
  }
  CHECK(systemd.eventually_says("WATCHDOG=1"));
  CHECK(gleyd.eventually_stored(1));
}

TEST_CASE("the_journal_gets_priorities_and_a_file_gets_times") {
  Gleyd gleyd(FarmText{});
  std::ofstream(gleyd.directory() / "log").put('\n');
  struct stat file {};
  REQUIRE(::stat((gleyd.directory() / "log").c_str(), &file) == 0);
  const std::string own = std::to_string(file.st_dev) + ":" + std::to_string(file.st_ino);
  gleyd.environment = {"JOURNAL_STREAM=" + own};
  gleyd.start();
  CHECK(gleyd.eventually_logs("\n<4>mqtt 127.0.0.1:1: cannot"));
  CHECK_THAT(gleyd.log(), Contains("\n<6>gleyd "));
  CHECK_THAT(gleyd.log(), !Contains(" info "));
  CHECK(gleyd.stop() == 0);

  // Standard error is led elsewhere than the journal.
  std::filesystem::remove(gleyd.directory() / "log");
  gleyd.environment = {"JOURNAL_STREAM=1:1"};
  gleyd.start();
  CHECK_THAT(gleyd.log(), StartsWith("20") && Contains("Z info gleyd "));
}

TEST_CASE("a_password_that_systemd_hands_over_is_used_and_a_missing_one_is_named") {
  Gleyd gleyd(FarmText{});
  std::string text = gleyd.farm.text();
  const std::string mqtt = "[mqtt]\n";
  text.insert(text.find(mqtt) + mqtt.size(),
              "user = \"gley\"\npassword_file = \"$CREDENTIALS_DIRECTORY/mqtt-password\"\n");
  (void)gleyd.write("farm.toml", text);
  CHECK(gleyd.command("check").code == 0);
  const Said without = gleyd.command("serve");
  CHECK(without.code == 1);
  CHECK_THAT(without.err, Contains("$CREDENTIALS_DIRECTORY/mqtt-password"));

  gleyd.environment = {"CREDENTIALS_DIRECTORY=" + gleyd.directory().string()};
  gleyd.launch();
  CHECK(gleyd.eventually_logs("farm.toml:"));
  (void)gleyd.stop();
  (void)gleyd.write("mqtt-password", "secret\n");
  gleyd.start();
  CHECK(gleyd.running());
}

#pragma once
#include <csignal>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "tests/system/process.hpp"

namespace gley::tests {

/// A mosquitto of the test's own: a free port of loopback, a directory of its own, stopped and
/// reaped when destroyed. One thread only.
class Broker {
 public:
  /// Starts at once and returns when the port answers. `settings` are lines of mosquitto.conf,
  /// added to a listener that lets everyone in unless they name a password_file.
  explicit Broker(std::vector<std::string> settings = {});
  ~Broker();
  Broker(const Broker&) = delete;
  Broker& operator=(const Broker&) = delete;

  [[nodiscard]] std::uint16_t port() const { return port_; }
  [[nodiscard]] const std::filesystem::path& directory() const { return directory_.path(); }
  [[nodiscard]] std::string log() const;

  /// One message by mosquitto_pub at QoS 1, acknowledged when this returns. `extra`: more
  /// arguments, for instance {"-r"}. Throws if it fails.
  void publish(const std::string& topic, const std::string& payload,
               std::vector<std::string> extra = {}) const;
  /// Each line of the file as one message, in order, over one connection at QoS 1.
  void publish_lines(const std::string& topic, const std::filesystem::path& file) const;

  /// SIGTERM lets it save its sessions, SIGKILL does not. Returns when it is gone.
  void stop(int signal = SIGTERM);
  /// Starts again on the same port, with what was saved if persistence is set.
  void start();

 private:
  ScratchDirectory directory_;
  std::uint16_t port_;
  std::unique_ptr<Process> process_;
};

/// The message retained or next published on a topic, by mosquitto_sub; empty if none within the
/// time.
[[nodiscard]] std::optional<std::string> message_on(
    std::uint16_t port, const std::string& topic,
    std::chrono::seconds timeout = std::chrono::seconds(1));

/// Listens with mosquitto_sub and writes each message as a line "topic payload" to a file.
class Listener {
 public:
  /// Returns when the subscription stands.
  Listener(std::uint16_t port, const std::string& filter);
  [[nodiscard]] std::vector<std::string> lines() const;

 private:
  ScratchDirectory directory_;
  std::unique_ptr<Process> process_;
};

}  // namespace gley::tests

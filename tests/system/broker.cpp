#include "tests/system/broker.hpp"

#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace gley::tests {
namespace {

void write_settings(const std::filesystem::path& file, std::uint16_t port,
                    const std::vector<std::string>& settings) {
  std::ofstream out(file);
  out << "per_listener_settings false\n";
  // As root the broker drops to a user that may not write into a test's directory.
  if (::geteuid() == 0) out << "user root\n";
  out << "listener " << port << " 127.0.0.1\n";
  const bool has_passwords =
      std::any_of(settings.begin(), settings.end(), [](const std::string& line) {
        return line.starts_with("password_file") || line.starts_with("allow_anonymous");
      });
  if (!has_passwords) out << "allow_anonymous true\n";
  for (const std::string& line : settings) out << line << '\n';
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

std::vector<std::string> arguments(const char* program, std::uint16_t port,
                                   const std::string& topic) {
  return {program, "-h", "127.0.0.1", "-p", std::to_string(port), "-V", "5",
          "-q",    "1",  "-t",        topic};
}

}  // namespace

Broker::Broker(std::vector<std::string> settings) : port_(free_port()) {
  write_settings(directory() / "mosquitto.conf", port_, settings);
  start();
}

Broker::~Broker() {
  if (process_) process_->kill(SIGKILL);
}

std::string Broker::log() const {
  return read_file(directory() / "log");
}

void Broker::stop(int signal) {
  if (!process_) return;
  process_->kill(signal);
  if (!process_->wait(patience)) throw std::runtime_error("the broker does not stop");
  process_.reset();
}

void Broker::start() {
  const auto log_file = directory() / "log";
  process_ = std::make_unique<Process>(
      std::vector<std::string>{"mosquitto", "-c", (directory() / "mosquitto.conf").string()},
      Output{.out = log_file, .err = log_file});
  const bool up = eventually([this] { return !process_->running() || port_open(port_); });
  if (!up || !process_->running()) throw std::runtime_error("the broker did not start:\n" + log());
}

void Broker::publish(const std::string& topic, const std::string& payload,
                     std::vector<std::string> extra) const {
  auto argv = arguments("mosquitto_pub", port_, topic);
  if (payload.empty()) {
    argv.emplace_back("-n");
  } else {
    argv.insert(argv.end(), {"-m", payload});
  }
  argv.insert(argv.end(), extra.begin(), extra.end());
  const int code = run(std::move(argv));
  if (code != 0) throw std::runtime_error("mosquitto_pub ended with " + std::to_string(code));
}

void Broker::publish_lines(const std::string& topic, const std::filesystem::path& file) const {
  // mosquitto_pub -l reads its standard input; only a shell gives it a file there.
  const std::string command = "exec mosquitto_pub -h 127.0.0.1 -p " + std::to_string(port_) +
                              " -V 5 -q 1 -l -t '" + topic + "' < '" + file.string() + "'";
  const int code = run({"/bin/sh", "-c", command}, {}, std::chrono::minutes(5));
  if (code != 0) throw std::runtime_error("mosquitto_pub ended with " + std::to_string(code));
}

std::optional<std::string> message_on(std::uint16_t port, const std::string& topic,
                                      std::chrono::seconds timeout) {
  const ScratchDirectory directory;
  const auto file = directory.path() / "message";
  auto argv = arguments("mosquitto_sub", port, topic);
  argv.insert(argv.end(), {"-C", "1", "-N", "-W", std::to_string(timeout.count())});
  if (run(std::move(argv), {.out = file, .err = directory.path() / "err"}) != 0) return {};
  return read_file(file);
}

Listener::Listener(std::uint16_t port, const std::string& filter) {
  auto argv = arguments("mosquitto_sub", port, filter);
  argv.insert(argv.end(), {"-v", "-d"});
  argv.insert(argv.begin(), {"stdbuf", "-oL"});  // into a file it would write by the block
  process_ = std::make_unique<Process>(std::move(argv), Output{.out = directory_.path() / "out"});
  const bool stands = eventually([this] {
    return read_file(directory_.path() / "out").find("Subscribed (mid") != std::string::npos;
  });
  if (!stands) throw std::runtime_error("mosquitto_sub could not subscribe to " + filter);
}

std::vector<std::string> Listener::lines() const {
  std::vector<std::string> lines;
  std::istringstream text(read_file(directory_.path() / "out"));
  for (std::string line; std::getline(text, line);) {
    const bool debug = line.starts_with("Client ") || line.starts_with("Subscribed (mid");
    if (!debug) lines.push_back(line);
  }
  return lines;
}

}  // namespace gley::tests

#include "tests/bench/running_farm.hpp"

#include <csignal>
#include <fstream>
#include <stdexcept>
#include <thread>

#include "daemon/store/database.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::bench {

using Clock = std::chrono::steady_clock;

std::optional<HttpAnswer> http_get(std::uint16_t port, const std::string& path,
                                   const std::string& more) try {
  daemon::RawClient client(port);
  client.send("GET " + path + " HTTP/1.1\r\nHost: localhost\r\n" + more +
              "Connection: close\r\n\r\n");
  if (!client.read_to_close(std::chrono::seconds{60})) return {};
  const std::string& text = client.received();
  const auto end = text.find("\r\n\r\n");
  if (!text.starts_with("HTTP/1.1 200") || end == std::string::npos) return {};
  return HttpAnswer{text.substr(0, end), text.substr(end + 4)};
} catch (const std::runtime_error&) {
  return {};  // nobody listens there yet
}

RunningFarm::RunningFarm(FarmScene scene) : scene_(std::move(scene)) {
  scene_.http_port = tests::free_port();
  std::ofstream(directory() / "farm.toml") << farm_text(scene_);
}

double RunningFarm::start() {
  const auto began = Clock::now();
  const auto log = directory() / "log";
  process_ = std::make_unique<tests::Process>(
      std::vector<std::string>{GLEYD_PATH, "serve", "--config",
                               (directory() / "farm.toml").string()},
      tests::Output{.out = log, .err = log});
  while (!http_get(scene_.http_port, "/")) {
    if (!process_->running() || Clock::now() - began > std::chrono::minutes{5})
      throw std::runtime_error("gleyd did not start:\n" + tests::read_file(log));
    std::this_thread::sleep_for(std::chrono::milliseconds{2});
  }
  return std::chrono::duration<double>(Clock::now() - began).count();
}

void RunningFarm::stop() {
  process_->kill(SIGTERM);
  if (!process_->wait()) throw std::runtime_error("gleyd did not stop");
  process_.reset();
}

HttpAnswer RunningFarm::get(const std::string& path, const std::string& more) const {
  const auto answer = http_get(scene_.http_port, path, more);
  if (!answer) throw std::runtime_error("no answer to " + path);
  return *answer;
}

void RunningFarm::wait_until_state_is_kept() const {
  const daemon::Database database(store(), daemon::Durability::process);
  const bool kept = tests::eventually(std::chrono::seconds{60}, [&] {
    return database.number("SELECT count(*) FROM derived WHERE name = 'checkpoint'") == 1;
  });
  if (!kept) throw std::runtime_error("gleyd kept nothing for its next start");
}

double RunningFarm::memory_mib(const std::string& line) const {
  std::ifstream status("/proc/" + std::to_string(process_->pid()) + "/status");
  for (std::string text; std::getline(status, text);)
    if (text.starts_with(line + ":")) return std::stod(text.substr(line.size() + 1)) / 1024.0;
  throw std::runtime_error("no " + line + " in /proc");
}

}  // namespace gley::bench

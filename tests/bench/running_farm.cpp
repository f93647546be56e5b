#include "tests/bench/running_farm.hpp"

#include <csignal>
#include <fstream>
#include <stdexcept>
#include <thread>

#include "daemon/store/database.hpp"

namespace gley::bench {

using Clock = std::chrono::steady_clock;

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
  while (ask("/", "").status != 200) {
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

tests::HttpAnswer RunningFarm::ask(const std::string& path, const std::string& more) const {
  return tests::http_ask(scene_.http_port, {.line = "GET " + path, .headers = more});
}

tests::HttpAnswer RunningFarm::get(const std::string& path, const std::string& more) const {
  tests::HttpAnswer answer = ask(path, more);
  if (answer.status != 200) throw std::runtime_error("no answer to " + path);
  return answer;
}

void RunningFarm::wait_until_state_is_kept() const {
  const daemon::Database database(store(), daemon::Durability::process);
  const bool kept = tests::eventually([&] {
    return database.number("SELECT count(*) FROM derived WHERE name = 'checkpoint'") == 1;
  });
  if (!kept) throw std::runtime_error("gleyd kept nothing for its next start");
}

}  // namespace gley::bench

// The daemon with 500 fields and ten years of readings: seconds from its start to its first board,
// memory while it serves, bytes of its page. Wall time of a real process with nothing cached by us
// but the files; the median of several starts.
#include <algorithm>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <thread>

#include "daemon/store/database.hpp"
#include "tests/bench/farm_scene.hpp"
#include "tests/system/process.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::bench {
namespace {

using namespace gley::tests;
using Clock = std::chrono::steady_clock;

constexpr int years = 10;
constexpr int starts = 5;

struct Answer {
  std::string head;
  std::string body;
};

/// Empty while nobody answers.
std::optional<Answer> ask(std::uint16_t port, const std::string& path,
                          const std::string& more) try {
  daemon::RawClient client(port);
  client.send("GET " + path + " HTTP/1.1\r\nHost: localhost\r\n" + more +
              "Connection: close\r\n\r\n");
  if (!client.read_to_close(std::chrono::seconds{60})) return {};
  const std::string& text = client.received();
  const auto end = text.find("\r\n\r\n");
  if (!text.starts_with("HTTP/1.1 200") || end == std::string::npos) return {};
  return Answer{text.substr(0, end), text.substr(end + 4)};
} catch (const std::runtime_error&) {
  return {};
}

/// A farm on disk, and its daemon.
class Farm {
 public:
  explicit Farm(FarmScene scene) : scene_(std::move(scene)) {
    scene_.http_port = free_port();
    std::ofstream(directory_.path() / "farm.toml") << farm_text(scene_);
  }

  [[nodiscard]] std::filesystem::path store() const { return directory_.path() / "farm.db"; }
  [[nodiscard]] const FarmScene& scene() const { return scene_; }

  /// Seconds until the page is there.
  double start() {
    const auto began = Clock::now();
    const auto log = directory_.path() / "log";
    process_ = std::make_unique<Process>(
        std::vector<std::string>{GLEYD_PATH, "serve", "--config",
                                 (directory_.path() / "farm.toml").string()},
        Output{.out = log, .err = log});
    while (!ask(scene_.http_port, "/", "")) {
      if (!process_->running() || Clock::now() - began > std::chrono::minutes{5})
        throw std::runtime_error("gleyd did not start:\n" + read_file(log));
      std::this_thread::sleep_for(std::chrono::milliseconds{2});
    }
    return std::chrono::duration<double>(Clock::now() - began).count();
  }

  [[nodiscard]] bool keeps_its_state() const {
    daemon::Database database(store(), daemon::Durability::process);
    return eventually(std::chrono::seconds{60}, [&] {
      return database.number("SELECT count(*) FROM derived WHERE name = 'checkpoint'") == 1;
    });
  }

  void stop() {
    process_->kill(SIGTERM);
    if (!process_->wait()) throw std::runtime_error("gleyd did not stop");
    process_.reset();
  }

  [[nodiscard]] std::string get(const std::string& path, const std::string& more = {}) const {
    const auto answer = ask(scene_.http_port, path, more);
    if (!answer) throw std::runtime_error("no answer to " + path);
    return answer->body;
  }

  /// Of the process, MiB, by a line of /proc: VmRSS now, VmHWM at most so far.
  [[nodiscard]] double memory_mib(const std::string& line) const {
    std::ifstream status("/proc/" + std::to_string(process_->pid()) + "/status");
    for (std::string text; std::getline(status, text);)
      if (text.starts_with(line + ":")) return std::stod(text.substr(line.size() + 1)) / 1024.0;
    throw std::runtime_error("no " + line + " in /proc");
  }

 private:
  TempDir directory_;
  FarmScene scene_;
  std::unique_ptr<Process> process_;
};

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  return values[values.size() / 2];
}

std::chrono::sys_days yesterday() {
  return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()) -
         std::chrono::days{1};
}

int keep(const std::string& folder) {
  FarmScene scene;
  scene.http_port = 18080;
  std::ofstream(folder + "/farm.toml") << farm_text(scene);
  fill_store(folder + "/farm.db", scene, yesterday(), static_cast<int>(365.25 * years));
  return 0;
}

void measure_start() {
  Farm farm({});
  const auto readings =
      fill_store(farm.store(), farm.scene(), yesterday(), static_cast<int>(365.25 * years));
  std::printf("readings_in_store: %lld 1\n", static_cast<long long>(readings));
  std::printf("start_from_nothing_derived: %.3f s\n", farm.start());
  std::printf("memory_after_start_from_nothing: %.1f MiB\n", farm.memory_mib("VmHWM"));
  std::fflush(stdout);
  // It keeps what it worked out a second or two after its start; what is measured then is the start
  // of a daemon that has run before.
  if (!farm.keeps_its_state()) throw std::runtime_error("gleyd kept nothing for its next start");
  farm.stop();
  std::vector<double> seconds;
  for (int i = 0; i < starts; ++i) {
    seconds.push_back(farm.start());
    if (i + 1 < starts) farm.stop();
  }
  std::printf("start_with_ten_years: %.3f s\n", median(seconds));
  for (int i = 0; i < 20; ++i)
    for (const char* path : {"/", "/api/board", "/metrics"}) (void)farm.get(path);
  std::printf("memory_serving_500_fields: %.1f MiB\n", farm.memory_mib("VmRSS"));
  std::printf("memory_serving_500_fields_at_most: %.1f MiB\n", farm.memory_mib("VmHWM"));
  std::fflush(stdout);
  farm.stop();
}

}  // namespace
}  // namespace gley::bench

int main(int argc, char** argv) try {
  if (argc == 3 && std::string(argv[1]) == "--keep") return gley::bench::keep(argv[2]);
  gley::bench::measure_start();
} catch (const std::exception& error) {
  std::fprintf(stderr, "bench_start: %s\n", error.what());
  return 1;
}

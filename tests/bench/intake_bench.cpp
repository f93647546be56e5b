// Readings in at QoS 1 with a real broker, each committed before it is acknowledged, for both kinds
// of durability; and the disk's own rate in the same run. Wall time, as others see it; the median
// of several runs.
#include <fcntl.h>
#include <unistd.h>

#include <cstdio>
#include <fstream>
#include <future>
#include <thread>
#include <vector>

#include "daemon/store/database.hpp"
#include "tests/bench/figures.hpp"
#include "tests/bench/running_farm.hpp"
#include "tests/system/broker.hpp"

namespace gley::bench {
namespace {

using Clock = std::chrono::steady_clock;

constexpr int runs = 5;

double seconds_since(Clock::time_point began) {
  return std::chrono::duration<double>(Clock::now() - began).count();
}

/// Appends of a page a second, each on the disk before the next.
double fdatasyncs_a_second(const std::filesystem::path& directory) {
  const std::string file = (directory / "pages").string();
  const int descriptor = ::open(file.c_str(), O_CREAT | O_TRUNC | O_WRONLY | O_CLOEXEC, 0600);
  if (descriptor < 0) throw std::runtime_error("cannot write " + file);
  const std::vector<char> page(4096, 'x');
  const auto began = Clock::now();
  int count = 0;
  bool good = true;
  for (; good && seconds_since(began) < 1.0; ++count)
    good = ::write(descriptor, page.data(), page.size()) == 4096 && ::fdatasync(descriptor) == 0;
  const double rate = count / seconds_since(began);
  ::close(descriptor);
  std::filesystem::remove(file);
  if (!good) throw std::runtime_error("cannot sync " + file);
  return rate;
}

/// A broker, a farm, and readings from a station at full rate. Each reading is new.
class Intake {
 public:
  explicit Intake(const char* durability)
      : broker_({"max_queued_messages 1000000"}),
        farm_({.mqtt_port = broker_.port(), .durability = durability}) {
    (void)farm_.start();
    database_ = std::make_unique<daemon::Database>(farm_.store(), daemon::Durability::process);
    // Stored, so subscribed.
    const bool taken = tests::eventually([&] {
      broker_.publish("weather/s0/pack", pack());
      return stored() > 0;
    });
    if (!taken) throw std::runtime_error("gleyd takes no readings in");
  }

  [[nodiscard]] std::filesystem::path directory() const { return farm_.directory(); }

  /// Readings a second while they are being published: publisher, broker and daemon share the
  /// machine.
  double published_live(int readings) {
    const auto file = lines(readings);
    const std::int64_t before = stored();
    std::jthread publisher([&] { broker_.publish_lines("weather/s0/pack", file); });
    const double rate = rate_from(before, readings);
    publisher.join();
    return rate;
  }

  /// Readings a second out of the broker's queue, as after the daemon was away.
  double waiting_in_broker(int readings) {
    farm_.stop();
    broker_.publish_lines("weather/s0/pack", lines(readings));
    const std::int64_t before = stored();
    // Not the other way round: a daemon ends with the thread that started it.
    auto rate = std::async(std::launch::async, [&] { return rate_from(before, readings); });
    (void)farm_.start();
    return rate.get();
  }

 private:
  /// From the first that is stored to the last.
  double rate_from(std::int64_t before, int readings) {
    const auto deadline = Clock::now() + std::chrono::minutes{2};
    std::int64_t first = before;
    while ((first = stored()) == before) pause(deadline, 0);
    const auto began = Clock::now();
    std::int64_t last = first;
    while ((last = stored()) < before + readings) pause(deadline, last - before);
    return static_cast<double>(last - first) / seconds_since(began);
  }

  static void pause(Clock::time_point deadline, std::int64_t came) {
    if (Clock::now() > deadline)
      throw std::runtime_error("in two minutes only " + std::to_string(came) + " readings came");
    std::this_thread::sleep_for(std::chrono::milliseconds{2});
  }

  [[nodiscard]] std::int64_t stored() const {
    return database_->number("SELECT coalesce(max(id), 0) FROM reading");
  }

  [[nodiscard]] std::string pack() {
    const auto age = std::chrono::milliseconds{10} * (3'000'000 - ++sent_);
    const auto time = std::chrono::system_clock::now() - age;
    const double seconds = std::chrono::duration<double>(time.time_since_epoch()).count();
    char text[96];
    std::snprintf(text, sizeof(text), R"([{"n":"temperature","u":"Cel","t":%.3f,"v":%.1f}])",
                  seconds, 8.0 + sent_ % 50 / 10.0);
    return text;
  }

  [[nodiscard]] std::filesystem::path lines(int readings) {
    const auto file = directory() / "lines";
    std::ofstream out(file);
    for (int i = 0; i < readings; ++i) out << pack() << '\n';
    return file;
  }

  tests::Broker broker_;
  RunningFarm farm_;
  std::unique_ptr<daemon::Database> database_;
  int sent_ = 0;
};

struct Rates {
  std::vector<double> live;
  std::vector<double> waiting;
  std::vector<double> disk;
  std::vector<double> share;
};

Rates measure(const char* durability, int readings) {
  Rates rates;
  Intake intake(durability);
  for (int i = 0; i < runs; ++i) {
    const double before = fdatasyncs_a_second(intake.directory());
    rates.live.push_back(intake.published_live(readings));
    rates.waiting.push_back(intake.waiting_in_broker(readings));
    const double after = fdatasyncs_a_second(intake.directory());
    rates.disk.push_back((before + after) / 2.0);
    rates.share.push_back(rates.waiting.back() / rates.disk.back());
  }
  return rates;
}

void measure_both() {
  const Rates power = measure("power", 5000);
  row("readings_power_share_of_disk", median(power.share), "1");
  row("readings_power", median(power.waiting), "readings/s");
  row("readings_power_live", median(power.live), "readings/s");
  row("disk_fdatasyncs", median(power.disk), "1/s");
  const Rates process = measure("process", 30'000);
  row("readings_process", median(process.waiting), "readings/s");
  row("readings_process_live", median(process.live), "readings/s");
}

}  // namespace
}  // namespace gley::bench

int main() try { gley::bench::measure_both(); } catch (const std::exception& error) {
  std::fprintf(stderr, "bench_intake: %s\n", error.what());
  return 1;
}

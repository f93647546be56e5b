// The daemon with 500 fields and ten years of hourly readings: seconds from its start to its first
// board, and its memory while it serves. Wall time of a real process; the median of several starts.
#include "tests/bench/figures.hpp"
#include "tests/bench/running_farm.hpp"

namespace gley::bench {
namespace {

constexpr int years = 10;
constexpr int starts = 7;

std::chrono::sys_days yesterday() {
  return std::chrono::floor<std::chrono::days>(std::chrono::system_clock::now()) -
         std::chrono::days{1};
}

/// The first start of all, or the first under another configuration: from the readings alone.
void measure_start_from_readings(RunningFarm& farm) {
  row("start_from_readings", farm.start(), "s");
  farm.wait_until_state_is_kept();
  row("memory_start_from_readings_at_most", memory_mib(farm.pid(), "VmHWM"), "MiB");
  farm.stop();
}

void measure_start(RunningFarm& farm) {
  std::vector<double> seconds;
  for (int i = 0; i < starts; ++i) {
    seconds.push_back(farm.start());
    farm.stop();
  }
  row("start_with_ten_years", median(seconds), "s");
}

void measure_memory(RunningFarm& farm) {
  (void)farm.start();
  farm.wait_until_state_is_kept();
  for (int i = 0; i < 20; ++i)
    for (const char* path : {"/", "/api/board", "/metrics"}) (void)farm.get(path);
  (void)farm.get("/api/field/f7/days.csv");
  row("memory_serving_500_fields", memory_mib(farm.pid(), "VmRSS"), "MiB");
  row("memory_serving_500_fields_at_most", memory_mib(farm.pid(), "VmHWM"), "MiB");
  farm.stop();
}

void measure() {
  RunningFarm farm({});
  const auto readings =
      fill_store(farm.store(), farm.scene(), yesterday(), static_cast<int>(365.25 * years));
  row("start_readings_in_store", static_cast<double>(readings), "1");
  measure_start_from_readings(farm);
  measure_start(farm);
  measure_memory(farm);
}

}  // namespace
}  // namespace gley::bench

int main() try { gley::bench::measure(); } catch (const std::exception& error) {
  std::fprintf(stderr, "bench_start: %s\n", error.what());
  return 1;
}

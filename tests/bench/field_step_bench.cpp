// Field-days a second of the field step over many fields, on one core. With --sample FILE it writes
// a small sample of classes, states and weather, with what the step made of them, for the same
// equations in numpy to be checked against, and times nothing.
#include <algorithm>
#include <cstdio>
#include <cstring>
#include <string>

#include "tests/bench/field_sample.hpp"
#include "tests/bench/field_scene.hpp"
#include "tests/bench/figures.hpp"
#include "tests/bench/stopwatch.hpp"

namespace gley::bench {
namespace {

using namespace gley::model;

constexpr int million = 1'000'000;
constexpr int passes = 20;  // each a day of all fields

struct NamedPath {
  BatchPath path;
  const char* name;
};
constexpr NamedPath named_paths[] = {{BatchPath::scalar, "scalar"},
                                     {BatchPath::sse2, "sse2"},
                                     {BatchPath::avx2, "avx2"},
                                     {BatchPath::avx512, "avx512"}};

/// Until states differ as they do on a farm.
void let_weather_pass(FieldScene& scene) {
  for (int day = 0; day < 6 * FieldScene::days; ++day) step_blocks(scene.day(day));
}

double one_day_a_pass(FieldScene& scene, BatchPath path, int repeats = 1) {
  int day = 0;
  const double seconds = best_seconds(passes, [&] {
    for (int i = 0; i < repeats; ++i) step_blocks(scene.day(day), path);
    ++day;
  });
  return scene.fields() * static_cast<double>(repeats) / seconds;
}

/// Every day of the scene has a pass of its own; the sum of their best times.
double mean_of_days(FieldScene& scene, BatchPath path) {
  double seconds = 0.0;
  for (int day = 0; day < FieldScene::days; ++day)
    seconds += best_seconds(3, [&] { step_blocks(scene.day(day), path); });
  return scene.fields() * static_cast<double>(FieldScene::days) / seconds;
}

double thirty_days_a_block(FieldScene& scene, BatchPath path) {
  const double seconds = best_seconds(5, [&] { step_blocks(scene.many_days(), path); });
  return scene.fields() * static_cast<double>(FieldScene::many) / seconds;
}

double single_calls(const FieldScene& scene) {
  const FieldClass& of = scene.classes()[scene.classes().size() / 2];
  std::vector<FieldWater<double>> fields(1000);
  DayForcing<double> day;
  day.water_mm = 4.0;
  day.et0_mm = 2.0;
  const double seconds = best_seconds(passes, [&] {
    for (FieldWater<double>& water : fields) field_step(of.field, of.stand, day, water);
  });
  return static_cast<double>(fields.size()) / seconds;
}

bool runs(BatchPath path) {
  const std::vector<BatchPath> runnable = runnable_paths();
  return std::find(runnable.begin(), runnable.end(), path) != runnable.end();
}

/// Bytes read and written a second by adding to each number of an array larger than any cache.
double memory_bytes_a_second() {
  std::vector<double> numbers(std::size_t{1} << 27, 1.0);  // 1 GiB
  const double seconds = best_seconds(5, [&] {
    for (double& number : numbers) number += 1.0;
  });
  return 2.0 * sizeof(double) * static_cast<double>(numbers.size()) / seconds;
}

void against_number_of_fields(BatchPath path) {
  for (const int fields : {1, 10, 100, 1000, 10'000, 100'000}) {
    FieldScene scene(fields, Weather::rain_every_day);
    let_weather_pass(scene);
    row("field_step_fields_" + std::to_string(fields),
        one_day_a_pass(scene, path, std::max(1, 20'000 / fields)), "field-days/s");
  }
}

void against_layers(BatchPath path) {
  double depth_mm = 0.0;
  for (int layers = 1; layers <= max_layers; ++layers) {
    depth_mm += default_thickness_mm[static_cast<std::size_t>(layers - 1)];
    FieldScene scene(100'000, Weather::rain_every_day, depth_mm);
    let_weather_pass(scene);
    row("field_step_layers_" + std::to_string(layers), one_day_a_pass(scene, path), "field-days/s");
  }
}

void against_memory(double field_days_a_second) {
  const double state = sizeof(BlockWater) / static_cast<double>(block_fields);
  const double moved = 2.0 * state + sizeof(double);  // state in and out, rain in
  const double memory = memory_bytes_a_second();
  row("field_step_bytes_per_field", state, "B");
  row("field_step_bytes_moved", moved, "B/field-day");
  row("memory_bandwidth", memory / 1e9, "GB/s");
  row("field_step_share_of_bandwidth", field_days_a_second * moved / memory, "1");
}

void measure() {
  const BatchPath path = runs(BatchPath::avx2) ? BatchPath::avx2 : BatchPath::sse2;
  FieldScene wet(million, Weather::rain_every_day);
  let_weather_pass(wet);
  const double rate = one_day_a_pass(wet, path);
  row("field_step", rate, "field-days/s");
  double scalar = 0.0;
  for (const NamedPath& named : named_paths) {
    if (!runs(named.path)) {
      std::printf("field_step_%s: not measured (this processor cannot run it)\n", named.name);
      continue;
    }
    const double of_path = one_day_a_pass(wet, named.path);
    if (named.path == BatchPath::scalar) scalar = of_path;
    row(std::string("field_step_") + named.name, of_path, "field-days/s");
    row(std::string("field_step_30_days_") + named.name, thirty_days_a_block(wet, named.path),
        "field-days/s");
  }
  row("field_step_over_scalar", rate / scalar, "1");
  row("field_step_single_calls", single_calls(wet), "field-days/s");
  against_memory(rate);
  {
    FieldScene mixed(million, Weather::mixed);
    let_weather_pass(mixed);
    row("field_step_mixed_weather", mean_of_days(mixed, path), "field-days/s");
    row("field_step_mixed_30_days", thirty_days_a_block(mixed, path), "field-days/s");
  }
  against_number_of_fields(path);
  against_layers(path);
}

}  // namespace
}  // namespace gley::bench

int main(int argc, char** argv) {
  if (argc == 3 && std::strcmp(argv[1], "--sample") == 0)
    return gley::bench::write_sample(argv[2]) ? 0 : 1;
  if (argc != 1) {
    std::fprintf(stderr, "Usage: bench_field_step [--sample FILE]\n");
    return 2;
  }
  gley::bench::measure();
  return 0;
}

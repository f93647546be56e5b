// One million fields through one day, and the verdicts for three machines on each: seconds on one
// core, and the memory it all takes. Fields of many classes in blocks; the step by the batch, then
// field by field what the ground bears.
#include <cstdio>
#include <string>
#include <vector>

#include "model/ground/ground_margin.hpp"
#include "model/soil/suction.hpp"
#include "tests/bench/field_scene.hpp"
#include "tests/bench/figures.hpp"
#include "tests/bench/stopwatch.hpp"

namespace gley::bench {
namespace {

using namespace gley::model;

constexpr int million = 1'000'000;
constexpr int machine_count = 3;
constexpr int passes = 5;

std::vector<MachineStress> machines(const GroundLimits& limits) {
  return {machine_stress({.heaviest_wheel = {1.2, 0.8}, .mass_t = 4.0}, limits),
          machine_stress({.heaviest_wheel = {2.6, 1.0}, .mass_t = 9.0}, limits),
          machine_stress({.heaviest_wheel = {5.5, 1.9}, .mass_t = 20.0}, limits)};
}

struct Depth {
  double excess_mm = 0.0;
  double thickness_mm = 0.0;
};

/// Layers `first` to `last` of one field of a block, taken together.
Depth body(const SoilProfile& soil, const BlockWater& water, int lane, int first, int last) {
  Depth out;
  for (int l = first; l <= last; ++l) {
    out.excess_mm += water.excess_mm[l].by_field[lane];
    out.thickness_mm += soil.thickness_mm[l];
  }
  return out;
}

GroundState<double> ground_of(const SoilProfile& soil, const BlockWater& water, int lane,
                              double rain_mm) {
  const Depth top = body(soil, water, lane, 0, topsoil_layers - 1);
  const Depth sub = body(soil, water, lane, topsoil_layers, topsoil_layers + 1);
  const Horizon& topsoil = soil.horizon[0];
  const Horizon& subsoil = soil.horizon[topsoil_layers];
  const double theta = subsoil.field_capacity + sub.excess_mm / sub.thickness_mm;
  GroundState<double> out;
  out.suction_topsoil_kpa =
      suction_kpa(topsoil, topsoil.field_capacity + top.excess_mm / top.thickness_mm);
  out.suction_subsoil_kpa = suction_kpa(subsoil, theta);
  out.subsoil_saturation = theta / subsoil.saturation;
  for (int l = 0; l < topsoil_layers; ++l)
    out.topsoil_deficit_mm += greatest(0.0, -water.excess_mm[l].by_field[lane]);
  out.rain_24h_mm = rain_mm;
  out.pond_mm = water.pond_mm.by_field[lane];
  out.waterlogged = out.pond_mm > 0.0 ? 1.0 : water.waterlogged.by_field[lane];
  out.subsoil_saturation_at_capacity = subsoil.field_capacity / subsoil.saturation;
  out.clay_pct = soil.clay_pct;
  return out;
}

/// How many verdicts of each word there are: so that none is left out by the compiler, nor by us.
struct Verdicts {
  long long of[4] = {};
  void add(Verdict verdict) { ++of[static_cast<int>(verdict)]; }
  [[nodiscard]] long long all() const { return of[0] + of[1] + of[2] + of[3]; }
};

Verdicts judge(const FieldScene& scene, const std::vector<MachineStress>& with, int day) {
  const GroundLimits limits;
  const std::span<const BlockRun> runs = scene.day(day);
  Verdicts verdicts;
  for (std::size_t b = 0; b < runs.size(); ++b) {
    const std::size_t of_class =
        static_cast<std::size_t>(scene.class_of_block(static_cast<int>(b)));
    const SoilProfile& soil = scene.classes()[of_class].field.soil;
    const Given& rain = runs[b].days.front().forcing.water_mm;
    for (int lane = 0; lane < runs[b].fields; ++lane) {
      const double rain_mm = rain.by_field == nullptr ? rain.of_all : rain.by_field->by_field[lane];
      const auto ground = ground_of(soil, *runs[b].water, lane, rain_mm);
      const GroundStrength<double> strength = ground_strength(ground, limits);
      for (const MachineStress& machine : with)
        verdicts.add(verdict_of(machine_margin(machine, strength, limits), limits));
    }
  }
  return verdicts;
}

bool measure() {
  FieldScene scene(million, Weather::mixed);
  for (int day = 0; day < 6 * FieldScene::days; ++day) step_blocks(scene.day(day));
  const std::vector<MachineStress> with = machines(GroundLimits{});
  int day = 0;
  Verdicts verdicts;
  const double seconds = best_seconds(passes, [&] {
    step_blocks(scene.day(day));
    verdicts = judge(scene, with, day);
    ++day;
  });
  std::printf("verdicts_million_fields: %.3f s\n", seconds);
  std::printf("verdicts_million_fields_memory: %.0f MiB\n", memory_mib("self", "VmHWM"));
  std::printf("verdicts_carries_care_keep_off: %lld/%lld/%lld 1\n", verdicts.of[0], verdicts.of[1],
              verdicts.of[2]);
  return verdicts.all() == static_cast<long long>(million) * machine_count &&
         verdicts.of[static_cast<int>(Verdict::not_known)] == 0;
}

}  // namespace
}  // namespace gley::bench

int main() {
  if (gley::bench::measure()) return 0;
  std::fprintf(stderr, "bench_verdicts: a field has no verdict\n");
  return 1;
}

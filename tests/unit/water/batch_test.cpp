// The batch against the field step of each field alone, byte for byte, on every path that this
// processor runs. Fields, states and weather are random; the generator is seeded, so a failure
// repeats.
#include "model/water/batch.hpp"

#include <algorithm>
#include <bit>
#include <catch2/catch.hpp>
#include <cmath>
#include <cstdint>
#include <random>

#include "model/water/field_step.hpp"

namespace gley::model {
namespace {

constexpr int days = 200;

const char* name_of(BatchPath path) {
  constexpr const char* names[] = {"scalar", "sse2", "avx2", "avx512"};
  return names[static_cast<int>(path)];
}

std::uint64_t bytes_of(double value) {
  return std::bit_cast<std::uint64_t>(value);
}

class Generator {
 public:
  explicit Generator(unsigned seed) : engine_(seed) {}
  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(engine_);
  }
  int pick(int count) { return std::uniform_int_distribution<int>(0, count - 1)(engine_); }
  bool chance(double probability) { return between(0.0, 1.0) < probability; }

  FieldParameters field() {
    FieldDescription field;
    field.soil = profile_of(horizon(), horizon(), between(0.0, 60.0), between(150.0, 1800.0));
    field.drainage = static_cast<DrainageClass>(pick(4));
    if (chance(0.4)) field.pipes = PipeDrains{.rate_mm_d = between(0.5, 15.0)};
    field.slope_pct = between(0.0, 15.0);
    field.rew_mm = between(2.0, 12.0);
    field.textbook = chance(0.1);
    return field_parameters(field);
  }

  StandDay stand(const SoilProfile& soil) {
    CropCourse crop;
    const double kcb = between(0.1, 1.2);
    crop.kcb.coefficients = {.initial = kcb, .mid_season = kcb, .end = kcb};
    crop.height_m = between(0.05, 2.0);
    crop.root_min_mm = crop.root_max_mm = between(100.0, 1600.0);
    crop.depletion_fraction = between(0.2, 0.6);
    if (chance(0.5)) crop.cover = between(0.0, 1.0);
    crop.sheds_storms = chance(0.8);
    crop.storage_dry_mm = between(50.0, 300.0);
    crop.storage_wet_mm = between(5.0, 50.0);
    return stand_day(crop, 1, {.u2_m_s = between(0.0, 5.0), .rh_min_pct = between(30.0, 90.0)},
                     soil);
  }

  FieldWater<double> water(const FieldParameters& field) {
    FieldWater<double> water;
    for (int l = 0; l < max_layers; ++l)
      water.excess_mm[l] = chance(0.1) ? -0.0 : between(-field.available_mm[l], field.room_mm[l]);
    water.surface_depletion_mm = between(0.0, field.tew_mm);
    water.wetted_fraction = chance(0.3) ? between(0.05, 1.0) : 1.0;
    if (chance(0.1)) water.pond_mm = between(0.0, 5.0);
    water.at_capacity = chance(0.5) ? 1.0 : 0.0;
    water.waterlogged = chance(0.2) ? 1.0 : 0.0;
    return water;
  }

  DayForcing<double> weather() {
    DayForcing<double> day;
    day.water_mm = chance(0.5) ? 0.0 : std::pow(between(0.0, 1.0), 4.0) * 150.0;
    if (chance(0.05)) day.irrigation_mm = between(0.0, 50.0);
    day.et0_mm = between(0.0, 9.0);
    day.sealed = chance(0.03) ? 1.0 : 0.0;
    day.irrigation_wetted_fraction = between(0.05, 1.0);
    return day;
  }

 private:
  Horizon horizon() {
    const double wilting = between(0.03, 0.30);
    const double capacity = wilting + between(0.08, 0.25);
    return {.wilting_point = wilting,
            .field_capacity = capacity,
            .saturation = capacity + between(0.01, 0.30),
            .retention_b = between(2.0, 12.0),
            .saturated_conductivity_mm_h = between(0.01, 200.0)};
  }

  std::mt19937 engine_;
};

template <class A, class Visit>
void each_row(A& block, FieldWater<double>& field, Visit visit) {
  for (int l = 0; l < max_layers; ++l) visit(block.excess_mm[l], field.excess_mm[l]);
  visit(block.surface_depletion_mm, field.surface_depletion_mm);
  visit(block.pond_mm, field.pond_mm);
  visit(block.wetted_fraction, field.wetted_fraction);
  visit(block.at_capacity, field.at_capacity);
  visit(block.waterlogged, field.waterlogged);
}

/// Rows for all fluxes, or for those that a daily balance needs.
struct FluxRows {
  DayFluxes<Row> rows;
  BlockFluxes wanted;

  explicit FluxRows(bool all) {
    wanted.evaporation_mm = &rows.evaporation_mm;
    wanted.transpiration_mm = &rows.transpiration_mm;
    wanted.runoff_mm = &rows.runoff_mm;
    wanted.drainage_mm = &rows.drainage_mm;
    wanted.pipe_drain_mm = &rows.pipe_drain_mm;
    if (!all) return;
    wanted.few = &rows.few;
    wanted.kr = &rows.kr;
    wanted.ke = &rows.ke;
    wanted.ks = &rows.ks;
    wanted.depletion_fraction = &rows.depletion_fraction;
    wanted.surface_depletion_start_mm = &rows.surface_depletion_start_mm;
    wanted.depletion_start_mm = &rows.depletion_start_mm;
    wanted.bypass_mm = &rows.bypass_mm;
  }
};

int differing(const BlockFluxes& rows, const DayFluxes<double>& alone, int lane) {
  int count = 0;
  const auto compare = [&](const Row* row, double want) {
    if (row && bytes_of(row->by_field[lane]) != bytes_of(want)) ++count;
  };
  compare(rows.few, alone.few);
  compare(rows.kr, alone.kr);
  compare(rows.ke, alone.ke);
  compare(rows.ks, alone.ks);
  compare(rows.depletion_fraction, alone.depletion_fraction);
  compare(rows.surface_depletion_start_mm, alone.surface_depletion_start_mm);
  compare(rows.depletion_start_mm, alone.depletion_start_mm);
  compare(rows.evaporation_mm, alone.evaporation_mm);
  compare(rows.transpiration_mm, alone.transpiration_mm);
  compare(rows.runoff_mm, alone.runoff_mm);
  compare(rows.drainage_mm, alone.drainage_mm);
  compare(rows.pipe_drain_mm, alone.pipe_drain_mm);
  compare(rows.bypass_mm, alone.bypass_mm);
  return count;
}

/// The days of one class's block, with the weather of each field on each day.
struct Season {
  FieldParameters field;
  std::vector<ClassDay> classes = std::vector<ClassDay>(days);
  std::vector<DayForcing<Row>> weather = std::vector<DayForcing<Row>>(days);
  std::vector<BlockDay> block_days = std::vector<BlockDay>(days);

  explicit Season(Generator& generator) : field(generator.field()) {
    StandDay stand = generator.stand(field.soil);
    for (int d = 0; d < days; ++d) {
      if (d % 40 == 39) stand = generator.stand(field.soil);
      classes[d] = class_day(field, stand);
      block_days[d].today = &classes[d];
      for (int lane = 0; lane < block_fields; ++lane) put(generator.weather(), d, lane);
      // Some days are the same for the whole block.
      const DayForcing<double> shared = generator.weather();
      BlockForcing& day = block_days[d].forcing;
      const auto choose = [&](Given& given, const Row& row, double of_all) {
        if (generator.chance(0.5))
          given.by_field = &row;
        else
          given.of_all = of_all;
      };
      choose(day.water_mm, weather[d].water_mm, shared.water_mm);
      choose(day.irrigation_mm, weather[d].irrigation_mm, shared.irrigation_mm);
      choose(day.et0_mm, weather[d].et0_mm, shared.et0_mm);
      choose(day.sealed, weather[d].sealed, shared.sealed);
      choose(day.irrigation_wetted_fraction, weather[d].irrigation_wetted_fraction,
             shared.irrigation_wetted_fraction);
    }
  }

  [[nodiscard]] DayForcing<double> of_field(int day, int lane) const {
    const auto value = [lane](const Given& given) {
      return given.by_field ? given.by_field->by_field[lane] : given.of_all;
    };
    const BlockForcing& block = block_days[day].forcing;
    DayForcing<double> out;
    out.water_mm = value(block.water_mm);
    out.irrigation_mm = value(block.irrigation_mm);
    out.et0_mm = value(block.et0_mm);
    out.sealed = value(block.sealed);
    out.irrigation_wetted_fraction = value(block.irrigation_wetted_fraction);
    return out;
  }

 private:
  void put(const DayForcing<double>& of_field, int day, int lane) {
    weather[day].water_mm.by_field[lane] = of_field.water_mm;
    weather[day].irrigation_mm.by_field[lane] = of_field.irrigation_mm;
    weather[day].et0_mm.by_field[lane] = of_field.et0_mm;
    weather[day].sealed.by_field[lane] = of_field.sealed;
    weather[day].irrigation_wetted_fraction.by_field[lane] = of_field.irrigation_wetted_fraction;
  }
};

/// Many fields, as blocks and each alone.
struct Farm {
  int fields;
  std::vector<Season> seasons;  ///< by block
  std::vector<BlockWater> blocks;
  std::vector<FieldWater<double>> alone;

  Farm(int count, unsigned seed) : fields(count) {
    Generator generator(seed);
    for (int first = 0; first < count; first += block_fields) {
      seasons.emplace_back(generator);
      blocks.emplace_back();
      for (int lane = 0; lane < fields_in(first); ++lane) {
        alone.push_back(generator.water(seasons.back().field));
        each_row(blocks.back(), alone.back(),
                 [lane](Row& row, double& value) { row.by_field[lane] = value; });
      }
    }
  }

  [[nodiscard]] int fields_in(int first) const { return std::min(block_fields, fields - first); }

  /// Every block through its days `first` to `last`.
  [[nodiscard]] std::vector<BlockRun> runs(int first, int last) {
    std::vector<BlockRun> runs;
    for (std::size_t b = 0; b < blocks.size(); ++b)
      runs.push_back({.water = &blocks[b],
                      .days = std::span(seasons[b].block_days).subspan(first, last - first),
                      .fields = fields_in(static_cast<int>(b) * block_fields)});
    return runs;
  }

  [[nodiscard]] int differing_water() {
    int count = 0;
    for (std::size_t f = 0; f < alone.size(); ++f)
      each_row(blocks[f / block_fields], alone[f], [&](const Row& row, double value) {
        if (bytes_of(row.by_field[f % block_fields]) != bytes_of(value)) ++count;
      });
    return count;
  }
};

DayFluxes<double> step_alone(Farm& farm, std::size_t field, int day) {
  const std::size_t block = field / block_fields;
  const Season& season = farm.seasons[block];
  return field_step(season.classes[day],
                    season.of_field(day, static_cast<int>(field % block_fields)),
                    farm.alone[field]);
}

}  // namespace

TEST_CASE("Every path of the batch gives the bytes of each field stepped alone") {
  for (const BatchPath path : runnable_paths())
    for (const int fields : {1, 63, 64, 65, 1000}) {
      INFO(name_of(path) << ", " << fields << " fields");
      Farm farm(fields, 20260105);
      for (int d = 0; d < days; ++d) {
        step_blocks(farm.runs(d, d + 1), path);
        for (std::size_t f = 0; f < farm.alone.size(); ++f) step_alone(farm, f, d);
        INFO("day " << d);
        REQUIRE(farm.differing_water() == 0);
      }
    }
}

TEST_CASE("Many days a block at once give the bytes of one day a pass") {
  for (const BatchPath path : runnable_paths()) {
    INFO(name_of(path));
    Farm farm(300, 20260106);
    step_blocks(farm.runs(0, 7), path);
    step_blocks(farm.runs(7, days), path);
    for (int d = 0; d < days; ++d)
      for (std::size_t f = 0; f < farm.alone.size(); ++f) step_alone(farm, f, d);
    REQUIRE(farm.differing_water() == 0);
  }
}

TEST_CASE("Fluxes that are asked for are those of each field alone, and asking changes nothing") {
  const bool all = GENERATE(false, true);
  for (const BatchPath path : runnable_paths()) {
    INFO(name_of(path));
    Farm farm(100, 20260107);
    std::vector<FluxRows> fluxes;
    fluxes.reserve(farm.blocks.size());
    for (std::size_t b = 0; b < farm.blocks.size(); ++b) fluxes.emplace_back(all);
    for (int d = 0; d < days; ++d) {
      for (std::size_t b = 0; b < farm.blocks.size(); ++b)
        farm.seasons[b].block_days[d].fluxes = &fluxes[b].wanted;
      step_blocks(farm.runs(d, d + 1), path);
      int count = 0;
      for (std::size_t f = 0; f < farm.alone.size(); ++f)
        count += differing(fluxes[f / block_fields].wanted, step_alone(farm, f, d),
                           static_cast<int>(f % block_fields));
      INFO("day " << d);
      REQUIRE(count == 0);
      REQUIRE(farm.differing_water() == 0);
    }
  }
}

TEST_CASE("The weather of the test reaches every branch of the step") {
  // The tests above say little where nothing runs short, backs up, cracks or is irrigated.
  Farm farm(1000, 20260105);
  int stressed = 0, ponded = 0, bypassed = 0, piped = 0, emptied = 0, partly_wetted = 0,
      endless = 0;
  for (int d = 0; d < days; ++d)
    for (std::size_t f = 0; f < farm.alone.size(); ++f) {
      const DayFluxes<double> day = step_alone(farm, f, d);
      const ClassDay& today = farm.seasons[f / block_fields].classes[d];
      stressed += day.ks < 1.0;
      ponded += farm.alone[f].pond_mm > 0.0;
      bypassed += day.bypass_mm > 0.0;
      piped += day.pipe_drain_mm > 0.0;
      emptied += farm.alone[f].excess_mm[0] + today.rooted_available_mm[0] < 1e-9;
      partly_wetted += farm.alone[f].wetted_fraction < today.exposed;
      for (const double excess_mm : farm.alone[f].excess_mm) endless += !std::isfinite(excess_mm);
    }
  CHECK(endless == 0);
  CHECK(stressed > 100);
  CHECK(ponded > 100);
  CHECK(bypassed > 100);
  CHECK(piped > 100);
  CHECK(emptied > 100);
  CHECK(partly_wetted > 100);
}

TEST_CASE("A processor of this machine's kind runs at least the paths of plain x86-64") {
  const std::vector<BatchPath> paths = runnable_paths();
  REQUIRE(paths.size() >= 2);
  CHECK(paths[0] == BatchPath::scalar);
  CHECK(paths[1] == BatchPath::sse2);
  if (paths.size() < 4) WARN("only " << paths.size() << " of 4 paths can be run here");
}

}  // namespace gley::model

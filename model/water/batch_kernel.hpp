#pragma once
#include <type_traits>

#include "model/water/batch.hpp"

/// The loops of the batch, for a lane type V. Included by one source file for each path; see
/// model/numeric/lanes.hpp why V is a type of that file alone.
namespace gley::model::batch {

template <class V>
inline constexpr int lanes_of = V::count;
template <>
inline constexpr int lanes_of<double> = 1;

template <class V>
V load(const double* values) {
  if constexpr (std::is_same_v<V, double>)
    return *values;
  else
    return V::load(values);
}

template <class V>
void store(const V& lanes, double* values) {
  if constexpr (std::is_same_v<V, double>)
    *values = lanes;
  else
    lanes.store(values);
}

template <class V>
V load(const Given& given, int first) {
  return given.by_field ? load<V>(given.by_field->by_field + first) : V(given.of_all);
}

template <class V>
FieldWater<V> load(const BlockWater& block, int first) {
  FieldWater<V> water;
  for (int l = 0; l < max_layers; ++l)
    water.excess_mm[l] = load<V>(block.excess_mm[l].by_field + first);
  water.surface_depletion_mm = load<V>(block.surface_depletion_mm.by_field + first);
  water.pond_mm = load<V>(block.pond_mm.by_field + first);
  water.wetted_fraction = load<V>(block.wetted_fraction.by_field + first);
  water.at_capacity = load<V>(block.at_capacity.by_field + first);
  water.waterlogged = load<V>(block.waterlogged.by_field + first);
  return water;
}

template <class V>
void store(const FieldWater<V>& water, BlockWater& block, int first) {
  for (int l = 0; l < max_layers; ++l)
    store(water.excess_mm[l], block.excess_mm[l].by_field + first);
  store(water.surface_depletion_mm, block.surface_depletion_mm.by_field + first);
  store(water.pond_mm, block.pond_mm.by_field + first);
  store(water.wetted_fraction, block.wetted_fraction.by_field + first);
  store(water.at_capacity, block.at_capacity.by_field + first);
  store(water.waterlogged, block.waterlogged.by_field + first);
}

template <class V>
DayForcing<V> load(const BlockForcing& block, int first) {
  DayForcing<V> day;
  day.water_mm = load<V>(block.water_mm, first);
  day.irrigation_mm = load<V>(block.irrigation_mm, first);
  day.et0_mm = load<V>(block.et0_mm, first);
  day.sealed = load<V>(block.sealed, first);
  day.irrigation_wetted_fraction = load<V>(block.irrigation_wetted_fraction, first);
  return day;
}

template <class V>
void store_wanted(const V& lanes, Row* row, int first) {
  if (row) store(lanes, row->by_field + first);
}

template <class V>
void store(const DayFluxes<V>& fluxes, const BlockFluxes& rows, int first) {
  store_wanted(fluxes.few, rows.few, first);
  store_wanted(fluxes.kr, rows.kr, first);
  store_wanted(fluxes.ke, rows.ke, first);
  store_wanted(fluxes.ks, rows.ks, first);
  store_wanted(fluxes.depletion_fraction, rows.depletion_fraction, first);
  store_wanted(fluxes.surface_depletion_start_mm, rows.surface_depletion_start_mm, first);
  store_wanted(fluxes.depletion_start_mm, rows.depletion_start_mm, first);
  store_wanted(fluxes.evaporation_mm, rows.evaporation_mm, first);
  store_wanted(fluxes.transpiration_mm, rows.transpiration_mm, first);
  store_wanted(fluxes.runoff_mm, rows.runoff_mm, first);
  store_wanted(fluxes.drainage_mm, rows.drainage_mm, first);
  store_wanted(fluxes.pipe_drain_mm, rows.pipe_drain_mm, first);
  store_wanted(fluxes.bypass_mm, rows.bypass_mm, first);
}

/// Asks for the cache line of field `first` in each row that the next block will want. Inlined by
/// order: a function that only asks for memory counts as one without effect, and calls of it
/// vanish.
template <class V>
[[gnu::always_inline]] inline void fetch_line(const BlockRun& next, int first) {
  constexpr int to_write = 1;
  for (const Row& row : next.water->excess_mm) __builtin_prefetch(row.by_field + first, to_write);
  __builtin_prefetch(next.water->surface_depletion_mm.by_field + first, to_write);
  __builtin_prefetch(next.water->pond_mm.by_field + first, to_write);
  __builtin_prefetch(next.water->wetted_fraction.by_field + first, to_write);
  __builtin_prefetch(next.water->at_capacity.by_field + first, to_write);
  __builtin_prefetch(next.water->waterlogged.by_field + first, to_write);
  const Row* rain = next.days.front().forcing.water_mm.by_field;
  if (rain) __builtin_prefetch(rain->by_field + first);
}

/// The lines of the next block that lie where this one's fields `first` and following lie.
template <class V>
[[gnu::always_inline]] inline void fetch(const BlockRun& next, int first) {
  constexpr int line = 64 / static_cast<int>(sizeof(double));
  if (first % line != 0) return;
  for (int lane = 0; lane < lanes_of<V>; lane += line) fetch_line<V>(next, first + lane);
}

template <class V, bool keeps_fluxes>
__attribute__((flatten)) void step_day(const BlockDay& day, int fields, BlockWater& block,
                                       const BlockRun* next) {
  const ClassDay today = *day.today;  // a copy, so that no store to the block may change it
  for (int first = 0; first < fields; first += lanes_of<V>) {
    if (next) fetch<V>(*next, first);
    FieldWater<V> water = load<V>(block, first);
    const DayFluxes<V> fluxes = field_step(today, load<V>(day.forcing, first), water);
    store(water, block, first);
    if constexpr (keeps_fluxes) store(fluxes, *day.fluxes, first);
  }
}

template <class V>
void step_run(const BlockRun& run, const BlockRun* next) {
  for (const BlockDay& day : run.days) {
    if (day.fluxes)
      step_day<V, true>(day, run.fields, *run.water, next);
    else
      step_day<V, false>(day, run.fields, *run.water, next);
    next = nullptr;
  }
}

template <class V>
void step_runs(std::span<const BlockRun> runs) {
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const bool has_next = i + 1 < runs.size() && !runs[i + 1].days.empty();
    step_run<V>(runs[i], has_next ? &runs[i + 1] : nullptr);
  }
}

/// One for each path, each in a source file compiled for its processors.
void step_scalar(std::span<const BlockRun> runs);
void step_sse2(std::span<const BlockRun> runs);
void step_avx2(std::span<const BlockRun> runs);
void step_avx512(std::span<const BlockRun> runs);

}  // namespace gley::model::batch

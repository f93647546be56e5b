#include "model/outlook/day_spread.hpp"

#include "model/outlook/chance.hpp"
#include "model/water/drains_run.hpp"

namespace gley::model {

namespace {

constexpr double counts_as_runoff_mm = 1.0;  // as the spreading advice holds; our choice

}  // namespace

void DaySpreads::note(std::size_t day, const FieldDay& seen) {
  Gathered& own = days_[day];
  own.rain_mm.push_back(seen.rain_mm);
  own.depletion_mm.push_back(seen.depletion_mm);
  own.topsoil_deficit_mm.push_back(seen.topsoil_deficit_mm);
  own.surplus_mm.push_back(seen.surplus_mm);
  own.at_capacity += is_at_capacity(seen.wetness) ? 1 : 0;
  own.drains_run += drains_run(seen) ? 1 : 0;
  own.runs_off += seen.fluxes.runoff_mm >= counts_as_runoff_mm ? 1 : 0;
  own.frozen += seen.ground.frozen ? 1 : 0;
}

std::vector<DaySpread> DaySpreads::answer() const {
  std::vector<DaySpread> out;
  out.reserve(days_.size());
  for (const Gathered& own : days_) {
    const std::size_t members = own.rain_mm.size();
    out.push_back(
        {.rain_mm = spread_of(own.rain_mm),
         .depletion_mm = spread_of(own.depletion_mm),
         .topsoil_deficit_mm = spread_of(own.topsoil_deficit_mm),
         .surplus_mm = spread_of(own.surplus_mm),
         .chance_at_capacity = chance_of({.happened = own.at_capacity, .members = members}),
         .chance_drains_run = chance_of({.happened = own.drains_run, .members = members}),
         .chance_runoff = chance_of({.happened = own.runs_off, .members = members}),
         .chance_frozen = chance_of({.happened = own.frozen, .members = members})});
  }
  return out;
}

}  // namespace gley::model

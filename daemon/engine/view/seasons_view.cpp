#include "daemon/engine/view/seasons_view.hpp"

#include <algorithm>

#include "daemon/engine/fields/harvest_year.hpp"
#include "daemon/engine/judge/field_days.hpp"
#include "daemon/text/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

void add(SeasonSums& sums, const JudgedDay& judged, const std::vector<model::Verdict>& verdicts) {
  const model::FieldDay& day = judged.day;
  ++sums.days;
  sums.rain_mm += day.rain_mm;
  sums.irrigation_mm += day.irrigation_mm;
  sums.et_mm += day.fluxes.evaporation_mm + day.fluxes.transpiration_mm;
  sums.runoff_mm += day.fluxes.runoff_mm;
  sums.drainage_mm += day.fluxes.drainage_mm + day.fluxes.pipe_drain_mm;
  sums.days_at_capacity += model::is_at_capacity(day.wetness) ? 1 : 0;
  sums.days_waterlogged += day.wetness == model::Wetness::waterlogged ? 1 : 0;
  sums.days_short_of_water += day.wetness == model::Wetness::short_of_water ? 1 : 0;
  sums.days_drains_ran += model::drains_run(day) ? 1 : 0;
  sums.days_carried.resize(verdicts.size());
  for (std::size_t i = 0; i < verdicts.size(); ++i)
    sums.days_carried[i] += verdicts[i] == model::Verdict::carries ? 1 : 0;
}

/// Gathers days, which come in order, into their seasons.
class Seasons {
 public:
  Seasons(const FarmConfig& farm, sys_days last_day)
      : calendar_(farm.latitude), verdicts_(farm), last_day_(last_day) {}

  void take(const JudgedDay& judged) {
    const HarvestYear year = calendar_.of(judged.day.date);
    if (seasons_.empty() || seasons_.back().harvest_year != year.year) open(year, judged.day.date);
    SeasonView& season = seasons_.back();
    const auto verdicts = verdicts_.on(judged);
    add(season.whole, judged, verdicts);
    if (judged.day.date - year.first <= last_day_ - calendar_.of(last_day_).first)
      add(season.to_date, judged, verdicts);
    season.to = date_text(judged.day.date);
    season.rain_sum_mm.push_back(season.whole.rain_mm);
    season.drain_sum_mm.push_back(season.whole.drainage_mm);
  }

  [[nodiscard]] std::vector<SeasonView> latest_first() {
    std::reverse(seasons_.begin(), seasons_.end());
    return std::move(seasons_);
  }

 private:
  void open(const HarvestYear& year, sys_days first_seen) {
    SeasonView season;
    season.harvest_year = year.year;
    season.from = date_text(first_seen);
    season.first_day = static_cast<int>((first_seen - year.first).count());
    season.days_missing = season.first_day;
    seasons_.push_back(std::move(season));
  }

  HarvestCalendar calendar_;
  MachineVerdicts verdicts_;
  sys_days last_day_;
  std::vector<SeasonView> seasons_;
};

}  // namespace

SeasonsView seasons_of(const FarmState& state, std::size_t field) {
  SeasonsView view;
  view.begins = HarvestCalendar(state.farm().latitude).begins();
  for (const MachineConfig& machine : state.farm().machines)
    view.machines.push_back({machine.id, machine.name});
  const std::vector<model::StationDay>& days = state.book().weather(field).days();
  if (days.empty()) return view;
  view.last_day = date_text(days.back().date);
  Seasons seasons(state.farm(), days.back().date);
  each_judged_day(state.book(), field, {}, [&](const JudgedDay& judged) { seasons.take(judged); });
  view.seasons = seasons.latest_first();
  return view;
}

}  // namespace gley::daemon

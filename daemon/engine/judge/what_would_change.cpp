#include "daemon/engine/judge/what_would_change.hpp"

#include <algorithm>

#include "daemon/board/words/figure_text.hpp"
#include "daemon/engine/judge/field_days.hpp"
#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/engine/judge/verdict_words.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

using model::Verdict;
using std::chrono::days;

constexpr int days_looked_ahead = 14;
constexpr std::size_t days_of_recent_demand = 7;

bool has_et0(const model::StationDay& day) {
  return !day.et.flags.has(model::DayFlag::et0_missing);
}

/// Of the days of the last week that have one, or else of today; none where no day has.
std::optional<double> recent_et0_mm(const std::vector<model::StationDay>& past,
                                    const model::StationDay& today) {
  double sum_mm = 0.0;
  int count = 0;
  for (std::size_t i = past.size() - std::min(past.size(), days_of_recent_demand); i < past.size();
       ++i) {
    if (!has_et0(past[i])) continue;
    sum_mm += past[i].et.et0_mm;
    ++count;
  }
  if (count > 0) return sum_mm / count;
  return has_et0(today) ? std::optional(today.et.et0_mm) : std::nullopt;
}

/// Today's weather without its rain.
model::StationDay dry_day(model::StationDay today, std::optional<double> et0_mm) {
  today.weather.rain_mm = 0.0;
  today.weather.irrigation_mm.reset();
  today.et.et0_mm = et0_mm.value_or(0.0);
  return today;
}

/// By machine, how many dry days from today it takes until it is carried; none within the look.
std::vector<std::optional<int>> dry_days_needed(const FarmConfig& farm, const JudgedDay& judged,
                                                const model::StationDay& dry) {
  const MachineVerdicts machines(farm);
  const model::FieldDay& today = judged.wettest();
  model::FieldState water = today.evening;
  model::GroundBefore before{.frozen = today.ground.frozen, .rain_24h_mm = {}};
  std::vector<std::optional<int>> needed(farm.machines.size());
  for (int ahead = 1; ahead <= days_looked_ahead; ++ahead) {
    model::StationDay weather = dry;
    weather.date = today.date + days{ahead};
    const model::FieldDay day = model::step_field(judged.field, weather, water);
    const auto verdicts = machines.on({.field = judged.field, .day = day, .before = before});
    before.frozen = day.ground.frozen;
    for (std::size_t m = 0; m < needed.size(); ++m)
      if (!needed[m] && verdicts[m] == Verdict::carries) needed[m] = ahead;
  }
  return needed;
}

/// Stock has no tyres, and is not let on in halves.
std::string no_remedy_words(const model::MachineLoad& load) {
  if (load.tread == model::Tread::hooves) return {};
  const std::string_view less = load.empty_wheel_load_t ? "driving it empty" : "half a load";
  if (load.tread == model::Tread::tracks) return std::string(less) + " would not do";
  return "neither less air in the tyres nor " + std::string(less) + " would do";
}

bool wants_rain(const model::GroundVerdict& verdict) {
  return std::any_of(verdict.reasons.begin(), verdict.reasons.end(), [](const auto& reason) {
    return reason.kind == model::GroundReasonKind::too_dry_to_crumble;
  });
}

/// Drains dry the soil without the air; only that they do not is no answer where the air's part is
/// not known.
std::string dry_words(std::optional<int> needed, bool et0_known) {
  if (!needed && !et0_known) return "after how many days without rain is not known";
  if (!needed) return "not within " + std::to_string(days_looked_ahead) + " days without rain";
  if (*needed == 1) return "carried after 1 day without rain";
  return "carried after " + std::to_string(*needed) + " days without rain";
}

}  // namespace

std::vector<MachineChange> what_would_change(const FarmState& state, std::size_t field) {
  if (!state.day_of(field)) return {};
  const JudgedDay judged = judged_today(state, field);
  const auto ground = model::ground_state(judged.field, judged.wettest(), judged.before);
  const WeatherSequence& weather = state.book().weather(field);
  const model::StationDay today = weather.today(state.today());
  const auto et0_mm = recent_et0_mm(weather.days(), today);
  const auto needed = dry_days_needed(state.farm(), judged, dry_day(today, et0_mm));
  std::vector<MachineChange> changes;
  for (std::size_t m = 0; m < state.farm().machines.size(); ++m) {
    const MachineConfig& machine = state.farm().machines[m];
    const model::MachineLoad load = load_of(machine);
    MachineChange change;
    change.machine = {machine.id, machine.name};
    const model::GroundVerdict verdict = judge(machine, judged);
    const Verdict now = verdict.verdict;
    change.verdict = model::to_word(now);
    if (now != Verdict::carries && now != Verdict::not_known) {
      if (const auto remedy = model::pressure_that_carries_bar(load, ground, judging_rules.ground))
        change.lower_pressure = pressure_words(*remedy);
      if (const auto remedy = model::load_share_that_carries(load, ground, judging_rules.ground))
        change.part_load = load_words(*remedy, load);
      if (change.lower_pressure.empty() && change.part_load.empty())
        change.no_remedy = no_remedy_words(load);
      change.dry_days = wants_rain(verdict) ? "rain has to soften it first"
                                            : dry_words(needed[m], et0_mm.has_value());
      change.dry_day_et0_mm = et0_mm;
    }
    changes.push_back(std::move(change));
  }
  return changes;
}

}  // namespace gley::daemon

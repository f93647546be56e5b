#include "daemon/engine/judge/recent_days.hpp"

#include <algorithm>

#include "daemon/engine/judge/field_days.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;

/// As far back as the longest wait and the drains' week need.
constexpr days looks_back{21};
constexpr std::size_t drains_week = 7;

}  // namespace

std::vector<const MachineConfig*> alerted_machines(const FarmConfig& farm,
                                                   const FieldConfig& field) {
  std::vector<const MachineConfig*> machines;
  const std::optional<std::string> sign = sign_machine(farm, field);
  const auto& named = farm.alerts.machines;
  for (const MachineConfig& machine : farm.machines)
    if (named.empty() ? machine.id == sign
                      : std::find(named.begin(), named.end(), machine.id) != named.end())
      machines.push_back(&machine);
  return machines;
}

WaitingRules waiting_rules(const FarmConfig& farm) {
  return {.closed_days = farm.alerts.closed_days, .open_days = farm.alerts.open_days};
}

bool driven(const std::vector<KeptReport>& reports, const std::string& field,
            const std::string& machine, Instant from, Instant to) {
  return std::any_of(reports.begin(), reports.end(), [&](const KeptReport& kept) {
    const FieldReport& report = kept.report;
    return report.field == field && report.kind == ReportKind::drove &&
           (report.machine.empty() || report.machine == machine) && report.time >= from &&
           report.time < to;
  });
}

RecentFieldDays::RecentFieldDays(std::vector<const MachineConfig*> machines, WaitingRules rules)
    : machines_(std::move(machines)) {
  recent_.machines.assign(machines_.size(), Waiting(rules));
}

void RecentFieldDays::day(const JudgedDay& judged, const std::vector<bool>& driven) {
  for (std::size_t m = 0; m < machines_.size(); ++m)
    recent_.machines[m].day(judge(*machines_[m], judged).verdict == model::Verdict::carries,
                            m < driven.size() && driven[m]);
  const bool runs = model::drains_run(judged.day);
  ran_.push_back(runs);
  if (ran_.size() > drains_week) ran_.erase(ran_.begin());
  recent_.before.drains_ran = runs;
  recent_.before.days_drains_dry = runs ? 0 : recent_.before.days_drains_dry + 1;
  recent_.before.days_drains_ran = static_cast<int>(std::count(ran_.begin(), ran_.end(), true));
}

void RecentDays::look(const FarmState& state, const std::vector<KeptReport>& reports) {
  if (of_ != &state || fields_.size() != state.book().fields()) {
    of_ = &state;
    fields_.assign(state.book().fields(), {});
  }
  for (std::size_t i = 0; i < fields_.size(); ++i) {
    Entry& entry = fields_[i];
    const FieldHistory& history = state.book().history(i);
    if (!history.last()) continue;
    if (entry.today == state.today() && entry.evening == history.last()->evening &&
        entry.reports == reports.size())
      continue;
    const FieldConfig& config = state.book().config(i);
    RecentFieldDays recent(alerted_machines(state.farm(), config), waiting_rules(state.farm()));
    const DayRange lately{state.today() - looks_back, state.today() - days{1}};
    each_judged_day(state.book(), i, lately, [&](const JudgedDay& judged) {
      const Instant begins = state.calendar().begins(judged.day.date);
      const Instant ends = state.calendar().ends(judged.day.date);
      std::vector<bool> drove;
      for (const MachineConfig* machine : recent.machines())
        drove.push_back(driven(reports, config.id, machine->id, begins, ends));
      recent.day(judged, drove);
    });
    entry = {.today = state.today(),
             .evening = history.last()->evening,
             .reports = reports.size(),
             .recent = recent.so_far()};
  }
}

}  // namespace gley::daemon

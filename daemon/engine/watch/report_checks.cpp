#include "daemon/engine/watch/report_checks.hpp"

#include <algorithm>
#include <map>
#include <tuple>

#include "daemon/engine/judge/field_days.hpp"
#include "daemon/engine/judge/judged_today.hpp"
#include "daemon/farm/with_id.hpp"
#include "daemon/text/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

/// Our choice: ruts a month into a wet spell surprise nobody.
constexpr days looks_back{30};

const MachineConfig* machine_of(const FarmState& state, std::size_t field,
                                const FieldReport& report) {
  const FarmConfig& farm = state.farm();
  if (!report.machine.empty()) return with_id(farm.machines, report.machine);
  return with_id(farm.machines, sign_machine(farm, state.book().config(field)).value_or(""));
}

std::string word_of(const MachineConfig* machine, const JudgedDay& judged) {
  if (machine == nullptr) return model::drains_run(judged.day) ? "running" : "dry";
  return std::string(model::to_word(judge(*machine, judged).verdict));
}

/// Days told in order, and since when they have said the same.
struct Run {
  std::string word;
  sys_days since{};
  sys_days last{};

  void day(sys_days date, std::string said) {
    if (said != word) {
      word = std::move(said);
      since = date;
    }
    last = date;
  }
};

/// The farm day a report stands for may be the one that has not ended yet.
void add_today(const FarmState& state, std::size_t field, const MachineConfig* machine, Run& run) {
  if (state.day_of(field)) run.day(state.today(), word_of(machine, judged_today(state, field)));
}

/// Empty where that day, or the machine, is not on record. A machine that was not told is the
/// field's sign machine.
std::optional<ReportCheck> check_of(const FarmState& state, std::size_t field,
                                    const FieldReport& report) {
  const bool of_drains = report.kind == ReportKind::drains_running;
  const MachineConfig* machine = of_drains ? nullptr : machine_of(state, field, report);
  if (!of_drains && machine == nullptr) return {};
  const sys_days date = state.calendar().day_of(report.time);
  const std::vector<model::StationDay>& recorded = state.book().weather(field).days();
  const sys_days first =
      recorded.empty() ? date : std::max(date - looks_back, recorded.front().date);
  Run run;
  each_judged_day(state.book(), field, {first, date}, [&](const JudgedDay& judged) {
    run.day(judged.day.date, word_of(machine, judged));
  });
  if (date == state.today()) add_today(state, field, machine, run);
  if (run.word.empty() || run.last != date) return {};
  return ReportCheck{.machine = machine == nullptr ? std::string() : machine->id,
                     .said = run.word,
                     .since = date_text(run.since),
                     .days_before = (date - run.since).count(),
                     .or_earlier = run.since <= first};
}

}  // namespace

void ReportChecks::look(const FarmState& state, const std::vector<KeptReport>& reports) {
  const bool same = std::equal(
      reports.begin(), reports.end(), reports_.begin(), reports_.end(),
      [](const KeptReport& kept, const FieldReport& report) { return kept.report == report; });
  if (!same || of_ != &state || fields_.size() != state.book().fields()) {
    of_ = &state;
    reports_.clear();
    for (const KeptReport& kept : reports) reports_.push_back(kept.report);
    sort_by_field(state);
  }
  for (std::size_t i = 0; i < fields_.size(); ++i)
    if (!fields_[i].reports.empty()) work_out(fields_[i], i, state);
}

void ReportChecks::sort_by_field(const FarmState& state) {
  fields_.assign(state.book().fields(), {});
  for (const FieldReport& report : reports_)
    if (const auto field = state.book().index_of(report.field))
      fields_[*field].reports.push_back(report);
}

void ReportChecks::work_out(Entry& entry, std::size_t field, const FarmState& state) {
  const std::uint64_t past = state.book().history(field).revision();
  const std::uint64_t so_far = state.book().version(field);
  const bool all = entry.past != past || entry.today != state.today();
  if (!all && entry.today_so_far == so_far) return;
  entry.checks.resize(entry.reports.size());
  // One for all of a day, kind and machine, of which a machine that reports by itself tells many.
  std::map<std::tuple<ReportKind, std::string, sys_days>, std::optional<ReportCheck>> checks;
  for (std::size_t i = 0; i < entry.reports.size(); ++i) {
    const FieldReport& report = entry.reports[i];
    const sys_days date = state.calendar().day_of(report.time);
    if (!all && date != state.today()) continue;
    const auto [own, is_new] = checks.try_emplace({report.kind, report.machine, date});
    if (is_new) own->second = check_of(state, field, report);
    entry.checks[i] = own->second;
  }
  entry.past = past;
  entry.today_so_far = so_far;
  entry.today = state.today();
}

void ReportChecks::show(std::size_t field, FieldView& view) const {
  if (field >= fields_.size()) return;
  const auto& checks = fields_[field].checks;
  for (std::size_t i = 0; i < std::min(checks.size(), view.reports.size()); ++i)
    view.reports[i].check = checks[i];
}

}  // namespace gley::daemon

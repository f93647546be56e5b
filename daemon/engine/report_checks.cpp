#include "daemon/engine/report_checks.hpp"

#include <algorithm>

#include "daemon/engine/board_view.hpp"
#include "daemon/engine/field_days.hpp"
#include "daemon/readings/date_text.hpp"
#include "model/water/drains_run.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

const MachineConfig* machine_of(const FarmState& state, std::size_t field,
                                const FieldReport& report) {
  const std::optional<std::string> id = report.machine.empty()
                                            ? sign_machine(state.farm(), state.book().config(field))
                                            : report.machine;
  const auto& machines = state.farm().machines;
  const auto found = std::find_if(machines.begin(), machines.end(),
                                  [&](const MachineConfig& own) { return own.id == id; });
  return found == machines.end() ? nullptr : &*found;
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
  const std::optional<model::FieldDay>& today = state.day_of(field);
  if (!today) return;
  run.day(state.today(), word_of(machine, {.field = state.book().history(field).field(),
                                           .day = *today,
                                           .before = ground_before(state, field)}));
}

}  // namespace

std::optional<ReportCheck> check_of(const FarmState& state, std::size_t field,
                                    const FieldReport& report) {
  const bool of_drains = report.kind == ReportKind::drains_running;
  const MachineConfig* machine = of_drains ? nullptr : machine_of(state, field, report);
  if (!of_drains && machine == nullptr) return {};
  const sys_days date = state.calendar().day_of(report.time);
  const auto recorded = dates_of(state.book(), field);
  Run run;
  if (recorded) {
    const DateSpan span{.from = std::max(date - report_looks_back, recorded->from), .to = date};
    each_judged_day(state.book(), field, span, [&](const JudgedDay& judged) {
      run.day(judged.day.date, word_of(machine, judged));
    });
  }
  if (date == state.today()) add_today(state, field, machine, run);
  if (run.word.empty() || run.last != date) return {};
  return ReportCheck{.machine = machine == nullptr ? std::string() : machine->id,
                     .judged = run.word,
                     .since = run.since,
                     .days_before = (date - run.since).count()};
}

void ReportChecks::look(const FarmState& state, const std::vector<KeptReport>& reports) {
  if (of_ != &state || fields_.size() != state.book().fields()) {
    of_ = &state;
    fields_.assign(state.book().fields(), {});
  }
  for (std::size_t i = 0; i < fields_.size(); ++i) {
    std::vector<FieldReport> own;
    for (const KeptReport& kept : reports)
      if (kept.report.field == state.book().config(i).id) own.push_back(kept.report);
    look_at(i, state, std::move(own));
  }
}

void ReportChecks::look_at(std::size_t field, const FarmState& state,
                           std::vector<FieldReport> reports) {
  Entry& entry = fields_[field];
  const std::uint64_t past = state.book().history(field).revision();
  const std::uint64_t so_far = state.book().version(field);
  const bool all = entry.past != past || entry.today != state.today() || entry.reports != reports;
  if (!all && entry.today_so_far == so_far) return;
  entry.checks.resize(reports.size());
  for (std::size_t i = 0; i < reports.size(); ++i)
    if (all || state.calendar().day_of(reports[i].time) == state.today())
      entry.checks[i] = check_of(state, field, reports[i]);
  entry.past = past;
  entry.today_so_far = so_far;
  entry.today = state.today();
  entry.reports = std::move(reports);
}

void ReportChecks::show(std::size_t field, FieldView& view) const {
  if (field >= fields_.size()) return;
  const auto& checks = fields_[field].checks;
  for (std::size_t i = 0; i < std::min(checks.size(), view.reports.size()); ++i) {
    if (!checks[i]) continue;
    ReportView& report = view.reports[i];
    report.judged_machine = checks[i]->machine;
    report.judged = checks[i]->judged;
    report.judged_since = date_text(checks[i]->since);
    report.judged_days_before = checks[i]->days_before;
  }
}

}  // namespace gley::daemon

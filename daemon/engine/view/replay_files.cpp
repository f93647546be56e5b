#include "daemon/engine/view/replay_files.hpp"

#include <algorithm>
#include <fstream>
#include <map>
#include <stdexcept>

#include "daemon/alerts/alert_round.hpp"
#include "daemon/board/words/plain_words.hpp"
#include "daemon/engine/fields/days_csv.hpp"
#include "daemon/engine/judge/field_days.hpp"
#include "daemon/engine/judge/recent_days.hpp"
#include "daemon/text/csv_cell.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

/// A file that appears under its name only when it is whole.
class WholeFile {
 public:
  explicit WholeFile(std::filesystem::path path) : path_(std::move(path)), part_(path_) {
    part_ += ".part";
    out_.open(part_, std::ios::binary | std::ios::trunc);
    fail_unless(out_.is_open());
  }
  void write(const std::string& text) { out_ << text; }
  void finish() {
    out_.close();
    fail_unless(!out_.fail());
    std::filesystem::rename(part_, path_);
  }

 private:
  void fail_unless(bool good) const {
    if (!good) throw std::runtime_error(path_.string() + ": cannot be written");
  }
  std::filesystem::path path_;
  std::filesystem::path part_;
  std::ofstream out_;
};

int most_layers(const FieldBook& book, const std::vector<std::size_t>& fields) {
  int most = 0;
  for (const std::size_t field : fields)
    most = std::max(most, book.history(field).field().parameters.soil.layers);
  return most;
}

/// A file of the rows that are made of each field's days.
void write_rows(const FieldBook& book, const ReplaySpan& span, const std::filesystem::path& path,
                const std::string& header,
                const std::function<std::string(const FieldConfig&, const JudgedDay&)>& rows_of) {
  WholeFile file(path);
  file.write(header);
  for (const std::size_t field : span.fields)
    each_judged_day(book, field, span.days, [&](const JudgedDay& judged) {
      file.write(rows_of(book.config(field), judged));
    });
  file.finish();
}

/// What a replay knows of each field on each day: what has happened, and no forecast.
using MomentsByDay = std::map<sys_days, std::vector<FieldMoment>>;

/// As the running daemon does at the end of a day, but without what people told.
FieldMoment moment_of(const std::string& id, const model::FieldDay& day,
                      const RecentFieldDays& recent, const std::vector<bool>& carried) {
  FieldMoment moment{.id = id, .day = day, .before = recent.so_far().before};
  for (std::size_t m = 0; m < recent.machines().size(); ++m) {
    const Waiting& waiting = recent.so_far().machines[m];
    MachineMoment machine{.machine = recent.machines()[m]->id,
                          .waiting = waiting.waits(),
                          .days_carried = waiting.days_carried(),
                          .carries = carried[m]};
    if (carried[m]) machine.opens = Instant{day.date};
    moment.machines.push_back(std::move(machine));
  }
  return moment;
}

MomentsByDay moments_by_day(const FieldBook& book, const FarmConfig& farm, const ReplaySpan& span) {
  MomentsByDay moments;
  for (const std::size_t field : span.fields) {
    const FieldConfig& config = book.config(field);
    RecentFieldDays recent(alerted_machines(farm, config), waiting_rules(farm));
    each_judged_day(book, field, span.days, [&](const JudgedDay& judged) {
      std::vector<bool> carried;
      for (const MachineConfig* machine : recent.machines())
        carried.push_back(judge(*machine, judged).verdict == model::Verdict::carries);
      moments[judged.day.date].push_back(moment_of(config.id, judged.day, recent, carried));
      recent.day(judged, {});
    });
  }
  return moments;
}

std::string alert_row(const Alert& alert, const FarmConfig& farm) {
  const AlertWords& words = words_of(alert.event);
  std::string headline(words.headline);
  if (!alert.subject.empty()) headline += " for " + name_of(farm.machines, alert.subject);
  const auto day = [](Instant at) { return date_text(std::chrono::floor<std::chrono::days>(at)); };
  return day(alert.onset) + ',' + (alert.ended ? day(*alert.ended) : "") + ',' +
         std::string(words.event) + ',' + csv_cell(joined(alert.members, ";")) + ',' +
         std::string(words.severity) + ',' + csv_cell(headline) + '\n';
}

void write_alerts(const FieldBook& book, const FarmConfig& farm, const ReplaySpan& span,
                  const std::filesystem::path& folder) {
  AlertBook alerts({.is_taken = {}, .once_a_day = true});
  for (const auto& [date, moments] : moments_by_day(book, farm, span)) {
    const Instant now{date};
    (void)take_round(alerts, held_topics(moments, alerts, now, {}), now);
  }
  std::vector<Alert> all = alerts.take_ended();
  all.insert(all.end(), alerts.open().begin(), alerts.open().end());
  std::stable_sort(all.begin(), all.end(),
                   [](const Alert& a, const Alert& b) { return a.onset < b.onset; });
  WholeFile file(folder / "alerts.csv");
  file.write("began,ended,event,fields,severity,headline\n");
  for (const Alert& alert : all) file.write(alert_row(alert, farm));
  file.finish();
}

std::string machine_rows(const FarmConfig& farm, const FieldConfig& field,
                         const JudgedDay& judged) {
  std::string rows;
  for (const MachineConfig& machine : farm.machines) {
    const model::GroundVerdict verdict = judge(machine, judged);
    rows += date_text(judged.day.date) + ',' + field.id + ',' + machine.id + ',' +
            std::string(model::to_word(verdict.verdict)) + ',' +
            (verdict.margin ? number_text(*verdict.margin) : "") + ',' +
            csv_cell(first_reason(verdict, machine)) + '\n';
  }
  return rows;
}

std::string spreading_rows(const FarmConfig& farm, const FieldConfig& field,
                           const JudgedDay& judged) {
  std::string rows;
  for (const MaterialConfig& material : farm.materials) {
    const model::SpreadingAdvice advice = advise(material, field, judged);
    rows += date_text(judged.day.date) + ',' + field.id + ',' + material.id + ',' +
            std::string(model::to_word(advice.advice)) + ',' + csv_cell(first_reason(advice)) +
            '\n';
  }
  return rows;
}

}  // namespace

void write_replay(const FieldBook& book, const FarmConfig& farm, const ReplaySpan& span,
                  const std::filesystem::path& folder) {
  std::error_code error;
  std::filesystem::create_directories(folder, error);
  if (error) throw std::runtime_error(folder.string() + ": cannot be made: " + error.message());
  const int layers = most_layers(book, span.fields);
  write_rows(book, span, folder / "days.csv", days_csv_header(layers),
             [&](const FieldConfig& field, const JudgedDay& judged) {
               return days_csv_row(field.id, judged.field, judged.day, layers);
             });
  write_rows(book, span, folder / "machines.csv", "date,field,machine,verdict,margin,reason\n",
             [&](const FieldConfig& field, const JudgedDay& judged) {
               return machine_rows(farm, field, judged);
             });
  write_rows(book, span, folder / "spreading.csv", "date,field,material,advice,reason\n",
             [&](const FieldConfig& field, const JudgedDay& judged) {
               return spreading_rows(farm, field, judged);
             });
  write_alerts(book, farm, span, folder);
}

}  // namespace gley::daemon

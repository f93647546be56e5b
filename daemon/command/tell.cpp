#include <ostream>

#include "daemon/board/words/local_time.hpp"
#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/readings/rfc3339.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/alert_store.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/store/told_store.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

std::optional<Instant> time_option(const std::string& text, OptionProblems& problems) {
  if (text.empty()) return wall_clock();
  const auto time = parse_rfc3339(text);
  if (!time) problems.add("--time: '" + text + "' must be written as 2026-03-20T09:30:00Z");
  return time;
}

std::string person_option(const std::string& text, OptionProblems& problems) {
  if (text.empty()) return {};
  const auto name = person(text);
  if (!name) problems.add("--by: " + name.error().detail);
  return name.value_or("");
}

/// Tells what is wrong, or keeps it and says so. A running daemon takes it up within seconds.
template <class Told>
int keep(const Told& told, const TellTerms& terms, const std::string& by, const FarmConfig& farm,
         OptionProblems& problems, const Voice& voice) {
  if (const auto good = check(told, terms, wall_clock()); !good) problems.add(good.error().detail);
  if (problems.any()) return exit_bad_input;
  Database database = open_store(farm.store.path, farm.store.durability);
  const bool is_new = ToldStore(database).put(told, {ToldVia::command, by}, wall_clock());
  voice.out << (is_new ? "kept: " : "known already: ");
  return exit_done;
}

}  // namespace

int tell_dressing(const FarmConfig& farm, const TellOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  const TellTerms terms = tell_terms(farm);
  const auto time = time_option(options.time, problems);
  const std::string by = person_option(options.by, problems);
  Dressing dressing{.field = options.field,
                    .material = options.material,
                    .rate = options.rate,
                    .unit = {},
                    .time = time.value_or(wall_clock())};
  if (const auto material = terms.materials.find(options.material);
      material != terms.materials.end())
    dressing.unit = rate_unit(material->second);
  const int code = keep(dressing, terms, by, farm, problems, voice);
  if (code == exit_done)
    voice.out << dressing.material << " on " << dressing.field << ", " << number_text(dressing.rate)
              << ' ' << dressing.unit << ", " << rfc3339(dressing.time) << '\n';
  return code;
}

int tell_report(const FarmConfig& farm, const TellOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  const auto kind = report_kind_from(options.report);
  if (!kind) problems.add("--report: must be 'drove', 'left ruts' or 'drains running'");
  const auto time = time_option(options.time, problems);
  const std::string by = person_option(options.by, problems);
  const FieldReport report{.field = options.field,
                           .kind = kind.value_or(ReportKind::drove),
                           .machine = options.machine,
                           .time = time.value_or(wall_clock())};
  const int code = keep(report, tell_terms(farm), by, farm, problems, voice);
  if (code == exit_done)
    voice.out << to_word(report.kind) << " on " << report.field
              << (report.machine.empty() ? "" : " with " + report.machine) << ", "
              << rfc3339(report.time) << '\n';
  return code;
}

int tell_seen(const FarmConfig& farm, const TellOptions& options, const Voice& voice) {
  const auto name = person(options.by);
  if (!name) {
    voice.problems << "--by: " << name.error().detail << '\n';
    return exit_bad_input;
  }
  Database database = open_store(farm.store.path, farm.store.durability);
  AlertStore store(database);
  store.mark_seen(options.alert, *name, wall_clock());
  const auto alert = store.find(options.alert);
  if (!alert) {
    voice.problems << "--alert: there is no alert '" << options.alert << "'\n";
    return exit_bad_input;
  }
  voice.out << alert->id << ": seen by " << alert->seen_by.value_or("") << ", "
            << rfc3339(alert->seen.value_or(Instant{})) << '\n';
  return exit_done;
}

}  // namespace gley::daemon

#include <ostream>
#include <set>

#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/engine/watch/doubt_view.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

std::set<std::chrono::sys_days> doubted_days(const FieldBook& book, const std::string& station) {
  std::set<std::chrono::sys_days> dates;
  for (const auto& [date, record] : book.record(station))
    if (!record.doubts.empty()) dates.insert(date);
  for (const auto& [date, found] : book.doubts(station)) dates.insert(date);
  return dates;
}

/// One line a finding; tells how many there were.
int list(const FarmState& state, std::chrono::sys_days from, const Voice& voice) {
  int lines = 0;
  for (const StationConfig& station : state.farm().stations)
    for (const std::chrono::sys_days date : doubted_days(state.book(), station.id)) {
      if (date < from) continue;
      std::vector<Doubt> found;
      for (StationDoubt& one : state.keeper().doubts({station.id}, date))
        found.push_back(std::move(one.doubt));
      const DoubtsByDay& of_days = state.book().doubts(station.id);
      if (const auto whole = of_days.find(date); whole != of_days.end())
        found.insert(found.end(), whole->second.begin(), whole->second.end());
      for (const Doubt& doubt : found) {
        voice.out << date_text(date) << ' ' << station.id << ' ' << in_words(doubt) << ". "
                  << what_to_do(doubt.kind) << '\n';
        ++lines;
      }
    }
  return lines;
}

}  // namespace

int doubts(const FarmConfig& farm, const DoubtsOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  const auto from = day_option("--from", options.from, problems);
  if (problems.any()) return exit_bad_input;
  Database database = open_store(farm.store.path, farm.store.durability);
  FarmState state(farm, database);
  state.look(wall_clock());
  if (list(state, from.value_or(std::chrono::sys_days::min()), voice) == 0)
    voice.out << "Nothing is doubted.\n";
  return exit_done;
}

}  // namespace gley::daemon

#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/command/explanation_text.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/engine/explain/explanation_day.hpp"
#include "daemon/engine/outlook/outlook_desk.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/schema.hpp"

namespace gley::daemon {

namespace {

/// Which field and day is meant; what is wrong with the options is told.
struct Meant {
  std::size_t field = 0;
  std::chrono::sys_days date;
};

std::optional<Meant> meant(const ExplainOptions& options, const FieldBook& book,
                           OptionProblems& problems) {
  const auto field = field_option(options.field, book, problems);
  const auto date = day_option("--date", options.date, problems);
  if (!field || !date || problems.any()) return {};
  return Meant{*field, *date};
}

int say(const tl::expected<ExplainedDay, std::string>& day, const Voice& voice) {
  if (!day) {
    voice.problems << "--date: " << day.error() << '\n';
    return exit_bad_input;
  }
  voice.out << explanation_text(explain(*day));
  return exit_done;
}

int explain_from_files(const ExplainOptions& options, const FarmConfig& farm, const Voice& voice) {
  OptionProblems problems(voice.problems);
  const auto weather = weather_option(options.weather, farm, problems);
  FieldBook book(farm);
  const auto asked = meant(options, book, problems);
  if (!asked) return exit_bad_input;
  put_all(book, weather);
  return say(ended_day(farm, book, asked->field, asked->date), voice);
}

int explain_from_store(const ExplainOptions& options, const FarmConfig& farm, const Voice& voice) {
  OptionProblems problems(voice.problems);
  if (!meant(options, FieldBook(farm), problems)) return exit_bad_input;
  Database database = open_store(farm.store.path, farm.store.durability);
  FarmState state(farm, database);
  const Instant now = wall_clock();
  OutlookDesk outlook(farm, database, {}, {});
  state.expect(outlook.expected_today(now));
  state.look(now);
  outlook.look(state, now);
  const auto asked = meant(options, state.book(), problems);
  if (!asked) return exit_bad_input;
  return say(day_of_farm(state, asked->field, asked->date, now, outlook.outlook(now)), voice);
}

}  // namespace

int explain(const FarmConfig& farm, const ExplainOptions& options, const Voice& voice) {
  return options.weather.empty() ? explain_from_store(options, farm, voice)
                                 : explain_from_files(options, farm, voice);
}

}  // namespace gley::daemon

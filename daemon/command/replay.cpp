#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/engine/view/replay_files.hpp"

namespace gley::daemon {

namespace {

ReplaySpan span_of(const ReplayOptions& options, const FieldBook& book, OptionProblems& problems) {
  ReplaySpan span{.days = {.from = day_option("--from", options.from, problems),
                           .to = day_option("--to", options.to, problems)},
                  .fields = {}};
  if (span.days.from && span.days.to && *span.days.to < *span.days.from)
    problems.add("--to " + options.to + " is before --from " + options.from);
  for (std::size_t i = 0; i < book.fields() && options.fields.empty(); ++i)
    span.fields.push_back(i);
  for (const std::string& id : options.fields)
    if (const auto index = field_option(id, book, problems)) span.fields.push_back(*index);
  return span;
}

}  // namespace

int replay(const FarmConfig& farm, const ReplayOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  const auto weather = weather_option(options.weather, farm, problems);
  FieldBook book(farm);
  const ReplaySpan span = span_of(options, book, problems);
  if (problems.any()) return exit_bad_input;
  put_all(book, weather);
  write_replay(book, farm, span, options.out);
  voice.out << "wrote days.csv, machines.csv, spreading.csv and alerts.csv of "
            << span.fields.size() << " fields to " << options.out.string() << '\n';
  return exit_done;
}

}  // namespace gley::daemon

#include <map>
#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/engine/replay_files.hpp"
#include "daemon/farm/nearest_name.hpp"
#include "daemon/readings/date_text.hpp"
#include "daemon/readings/weather_csv.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

/// Collects what is wrong with the options, so that all of it is told at once.
class Problems {
 public:
  explicit Problems(std::ostream& out) : out_(out) {}
  void add(const std::string& message) {
    out_ << message << '\n';
    any_ = true;
  }
  [[nodiscard]] bool any() const { return any_; }

 private:
  std::ostream& out_;
  bool any_ = false;
};

std::vector<std::string> station_ids(const FarmConfig& farm) {
  std::vector<std::string> ids;
  for (const StationConfig& station : farm.stations) ids.push_back(station.id);
  return ids;
}

/// STATION=FILE where the text before the sign is a station; otherwise all of it is a file's name.
struct WeatherArgument {
  std::string station;  ///< empty: every station without a file of its own
  std::string file;
};

WeatherArgument split(const std::string& text, const FarmConfig& farm) {
  const std::size_t sign = text.find('=');
  if (sign != std::string::npos)
    for (const std::string& id : station_ids(farm))
      if (id == text.substr(0, sign)) return {id, text.substr(sign + 1)};
  return {"", text};
}

std::map<std::string, WeatherByDay> weather_of(const ReplayOptions& options, const FarmConfig& farm,
                                               Problems& problems) {
  std::map<std::string, WeatherByDay> by_station;
  WeatherByDay for_the_rest;
  for (const std::string& text : options.weather) {
    const WeatherArgument argument = split(text, farm);
    WeatherFile file = read_weather_csv(argument.file);
    for (const std::string& problem : file.problems) problems.add(problem);
    if (argument.station.empty())
      for_the_rest = std::move(file.days);
    else
      by_station[argument.station] = std::move(file.days);
  }
  if (!for_the_rest.empty())
    for (const std::string& id : station_ids(farm)) by_station.emplace(id, for_the_rest);
  return by_station;
}

std::optional<sys_days> day_option(const std::string& name, const std::string& text,
                                   Problems& problems) {
  if (text.empty()) return {};
  const auto date = date_from(text);
  if (!date) problems.add(name + ": '" + text + "' is not a date; write it as 2024-02-29");
  return date;
}

std::string unknown_field(const std::string& id, const std::vector<std::string>& known) {
  const std::optional<std::string> nearest = nearest_name(id, known);
  return "--field: no field has the id '" + id + "'" +
         (nearest ? "; did you mean '" + *nearest + "'?" : "");
}

ReplaySpan span_of(const ReplayOptions& options, const FieldBook& book, Problems& problems) {
  ReplaySpan span{
      day_option("--from", options.from, problems), day_option("--to", options.to, problems), {}};
  if (span.from && span.to && *span.to < *span.from)
    problems.add("--to " + options.to + " is before --from " + options.from);
  std::vector<std::string> known;
  for (std::size_t i = 0; i < book.fields(); ++i) {
    known.push_back(book.config(i).id);
    if (options.fields.empty()) span.fields.push_back(i);
  }
  for (const std::string& id : options.fields) {
    const auto index = book.index_of(id);
    if (index)
      span.fields.push_back(*index);
    else
      problems.add(unknown_field(id, known));
  }
  return span;
}

void put_all(FieldBook& book, const std::map<std::string, WeatherByDay>& weather) {
  std::optional<sys_days> last;
  for (const auto& [station, days] : weather)
    for (const auto& [date, day] : days) {
      book.put(station, date, {.weather = day, .flags = {}, .complete = true, .loaded = true});
      last = std::max(last.value_or(date), date);
    }
  if (last) book.close(*last);
}

}  // namespace

int replay(const ReplayOptions& options, const Voice& voice) {
  const std::optional<FarmConfig> farm = farm_or_problems(options.config, voice);
  if (!farm) return exit_bad_input;
  Problems problems(voice.problems);
  const auto weather = weather_of(options, *farm, problems);
  FieldBook book(*farm);
  const ReplaySpan span = span_of(options, book, problems);
  if (problems.any()) return exit_bad_input;
  put_all(book, weather);
  write_replay(book, *farm, span, options.out);
  voice.out << "wrote days.csv, machines.csv, spreading.csv and alerts.csv of "
            << span.fields.size() << " fields to " << options.out.string() << '\n';
  return exit_done;
}

}  // namespace gley::daemon

#include "daemon/command/option_values.hpp"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <ostream>

#include "daemon/engine/weather/forecast_in_use.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/nearest_name.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

/// STATION=FILE where the text before the sign is a station; otherwise all of it is a file's name.
struct WeatherArgument {
  std::string station;  ///< empty: every station without a file of its own
  std::string file;
};

WeatherArgument split(const std::string& text, const FarmConfig& farm) {
  const std::size_t sign = text.find('=');
  if (sign != std::string::npos)
    for (const StationConfig& station : farm.stations)
      if (station.id == text.substr(0, sign)) return {station.id, text.substr(sign + 1)};
  return {"", text};
}

}  // namespace

void OptionProblems::add(const std::string& message) {
  out_ << message << '\n';
  any_ = true;
}

std::map<std::string, WeatherByDay> weather_option(const std::vector<std::string>& files,
                                                   const FarmConfig& farm,
                                                   OptionProblems& problems) {
  std::map<std::string, WeatherByDay> by_station;
  WeatherByDay for_the_rest;
  for (const std::string& text : files) {
    const WeatherArgument argument = split(text, farm);
    WeatherFile file = read_weather_csv(argument.file);
    for (const std::string& problem : file.problems) problems.add(problem);
    if (argument.station.empty())
      for_the_rest = std::move(file.days);
    else
      by_station[argument.station] = std::move(file.days);
  }
  if (!for_the_rest.empty())
    for (const StationConfig& station : farm.stations) by_station.emplace(station.id, for_the_rest);
  return by_station;
}

void add_unknown(const std::string& option, const std::string& of, const std::string& given,
                 const std::vector<std::string>& known, OptionProblems& problems) {
  const std::optional<std::string> nearest = nearest_name(given, known);
  problems.add(option + ": " + of + " '" + given + "'" +
               (nearest ? "; did you mean '" + *nearest + "'?" : ""));
}

bool check_station_option(const FarmConfig& farm, const std::string& id, OptionProblems& problems) {
  std::vector<std::string> known;
  for (const StationConfig& station : farm.stations) {
    if (station.id == id) return true;
    known.push_back(station.id);
  }
  add_unknown("--station", "no station has the id", id, known, problems);
  return false;
}

std::optional<sys_days> day_option(const std::string& name, const std::string& text,
                                   OptionProblems& problems) {
  if (text.empty()) return {};
  const auto date = date_from(text);
  if (!date) problems.add(name + ": '" + text + "' is not a date; write it as 2024-02-29");
  return date;
}

std::optional<std::size_t> field_option(const std::string& id, const FieldBook& book,
                                        OptionProblems& problems) {
  if (const auto index = book.index_of(id)) return index;
  std::vector<std::string> known;
  for (std::size_t i = 0; i < book.fields(); ++i) known.push_back(book.config(i).id);
  add_unknown("--field", "no field has the id", id, known, problems);
  return {};
}

std::optional<ForecastFile> forecast_option(const std::filesystem::path& file,
                                            const FarmConfig& farm, Instant now,
                                            OptionProblems& problems) {
  std::ifstream in(file, std::ios::binary);
  if (!in) {
    problems.add("--forecast: " + file.string() + " cannot be read");
    return {};
  }
  ForecastFile out{{std::istreambuf_iterator<char>(in), {}}, {}};
  DecodedForecast decoded = decode_forecast(forecast_terms(farm), out.text, now);
  if (!decoded) {
    problems.add(file.string() + ": " + decoded.error().detail);
    return {};
  }
  out.forecast = std::move(*decoded);
  return out;
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

}  // namespace gley::daemon

#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/farm/nearest_name.hpp"
#include "daemon/readings/date_text.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "daemon/store/loaded_days.hpp"
#include "daemon/store/schema.hpp"

namespace gley::daemon {

namespace {

bool station_is_known(const FarmConfig& farm, const std::string& id, const Voice& voice) {
  std::vector<std::string> known;
  for (const StationConfig& station : farm.stations) {
    if (station.id == id) return true;
    known.push_back(station.id);
  }
  const std::optional<std::string> nearest = nearest_name(id, known);
  voice.problems << "--station: no station has the id '" << id << "'"
                 << (nearest ? "; did you mean '" + *nearest + "'?" : "") << '\n';
  return false;
}

}  // namespace

int load(const LoadOptions& options, const Voice& voice) {
  const std::optional<FarmConfig> farm = farm_or_problems(options.config, voice);
  if (!farm) return exit_bad_input;
  const bool known = station_is_known(*farm, options.station, voice);
  const WeatherFile weather = read_weather_csv(options.weather);
  for (const std::string& problem : weather.problems) voice.problems << problem << '\n';
  if (!known || !weather.problems.empty()) return exit_bad_input;
  Database database = open_store(farm->store.path, farm->store.durability);
  LoadedDays(database).put(
      options.station, weather.days,
      std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now()));
  voice.out << "loaded " << weather.days.size() << " days of station " << options.station << ", "
            << date_text(weather.days.begin()->first) << " to "
            << date_text(weather.days.rbegin()->first)
            << "; a running daemon takes them up when it is reloaded\n";
  return exit_done;
}

}  // namespace gley::daemon

#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "daemon/store/loaded_days.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

int load(const FarmConfig& farm, const LoadOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  check_station_option(farm, options.station, problems);
  const WeatherFile weather = read_weather_csv(options.weather);
  for (const std::string& problem : weather.problems) problems.add(problem);
  if (problems.any()) return exit_bad_input;
  Database database = open_store(farm.store.path, farm.store.durability);
  LoadedDays(database).put(options.station, weather.days, wall_clock());
  voice.out << "loaded " << weather.days.size() << " days of station " << options.station << ", "
            << date_text(weather.days.begin()->first) << " to "
            << date_text(weather.days.rbegin()->first)
            << "; a running daemon takes them up when it is reloaded\n";
  return exit_done;
}

}  // namespace gley::daemon

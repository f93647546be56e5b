#include <cmath>
#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/farm/config_reader.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::daemon {

namespace {

std::string counted(std::size_t count, const std::string& what) {
  return std::to_string(count) + ' ' + what + (count == 1 ? "" : "s");
}

/// With the side of equator and meridian, where a sign goes missing unseen.
std::string place_text(const FarmConfig& farm) {
  return number_text(std::fabs(farm.latitude)) + (farm.latitude < 0.0 ? " S " : " N ") +
         number_text(std::fabs(farm.longitude)) + (farm.longitude < 0.0 ? " W" : " E");
}

}  // namespace

std::optional<FarmConfig> farm_or_problems(const std::filesystem::path& config,
                                           const Voice& voice) {
  ConfigResult result = read_config(config);
  for (const ConfigProblem& problem : result.problems) voice.problems << problem.to_line() << '\n';
  if (!result.problems.empty()) return {};
  return std::move(result.farm);
}

int check(const CheckOptions& options, const Voice& voice) {
  const std::optional<FarmConfig> farm = farm_or_problems(options.config, voice);
  if (!farm) return exit_bad_input;
  voice.out << options.config.string() << ": all is well: " << farm->name << " at "
            << place_text(*farm) << ", " << counted(farm->fields.size(), "field") << ", "
            << counted(farm->stations.size(), "weather station") << ", "
            << counted(farm->machines.size(), "machine") << ", "
            << counted(farm->materials.size(), "material") << '\n';
  return exit_done;
}

}  // namespace gley::daemon

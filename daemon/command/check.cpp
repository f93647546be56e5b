#include <cmath>
#include <ostream>

#include "daemon/command/command.hpp"
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

int check(const FarmConfig& farm, const CheckOptions& options, const Voice& voice) {
  voice.out << options.config.string() << ": all is well: " << farm.name << " at "
            << place_text(farm) << ", " << counted(farm.fields.size(), "field") << ", "
            << counted(farm.stations.size(), "weather station") << ", "
            << counted(farm.machines.size(), "machine") << ", "
            << counted(farm.materials.size(), "material") << '\n';
  return exit_done;
}

}  // namespace gley::daemon

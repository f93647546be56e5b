#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/farm/nearest_name.hpp"
#include "daemon/readings/date_text.hpp"
#include "daemon/store/accepted_store.hpp"
#include "daemon/store/schema.hpp"

namespace gley::daemon {

namespace {

constexpr Quantity all_quantities[] = {
    Quantity::rain, Quantity::temperature, Quantity::humidity,  Quantity::dew_point,
    Quantity::wind, Quantity::sunshine,    Quantity::radiation, Quantity::irrigation};

void say_unknown(const char* option, const std::string& given,
                 const std::vector<std::string>& known, OptionProblems& problems) {
  const std::optional<std::string> nearest = nearest_name(given, known);
  problems.add(std::string(option) + ": there is none called '" + given + "'" +
               (nearest ? "; did you mean '" + *nearest + "'?" : ""));
}

void check_station(const FarmConfig& farm, const std::string& id, OptionProblems& problems) {
  std::vector<std::string> known;
  for (const StationConfig& station : farm.stations) known.push_back(station.id);
  for (const std::string& own : known)
    if (own == id) return;
  say_unknown("--station", id, known, problems);
}

std::optional<Quantity> quantity_option(const std::string& word, OptionProblems& problems) {
  std::vector<std::string> known;
  for (const Quantity quantity : all_quantities) {
    if (to_word(quantity) == word) return quantity;
    known.emplace_back(to_word(quantity));
  }
  say_unknown("--quantity", word, known, problems);
  return {};
}

}  // namespace

int accept(const AcceptOptions& options, const Voice& voice) {
  const std::optional<FarmConfig> farm = farm_or_problems(options.config, voice);
  if (!farm) return exit_bad_input;
  OptionProblems problems(voice.problems);
  check_station(*farm, options.station, problems);
  const auto quantity = quantity_option(options.quantity, problems);
  const auto from = day_option("--from", options.from, problems);
  const auto to = options.to.empty() ? from : day_option("--to", options.to, problems);
  if (from && to && *to < *from) problems.add("--to: lies before --from");
  if (problems.any() || !quantity || !from || !to) return exit_bad_input;
  Database database = open_store(farm->store.path, farm->store.durability);
  AcceptedStore(database).put(
      {.station = options.station, .quantity = *quantity, .from = *from, .to = *to},
      std::chrono::time_point_cast<std::chrono::milliseconds>(std::chrono::system_clock::now()));
  voice.out << "accepted: " << options.quantity << " of station " << options.station << ", "
            << date_text(*from) << " to " << date_text(*to)
            << "; a running daemon uses it within a minute\n";
  return exit_done;
}

}  // namespace gley::daemon

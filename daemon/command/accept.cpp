#include <ostream>

#include "daemon/command/command.hpp"
#include "daemon/command/option_values.hpp"
#include "daemon/farm/word.hpp"
#include "daemon/readings/wall_clock.hpp"
#include "daemon/store/accepted_store.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

namespace {

std::optional<Quantity> quantity_option(const std::string& word, OptionProblems& problems) {
  if (const auto quantity = from_word<Quantity>(word)) return quantity;
  const auto& known = words_for<Quantity>;
  add_unknown("--quantity", "there is none called", word, {known.begin(), known.end()}, problems);
  return {};
}

}  // namespace

int accept(const FarmConfig& farm, const AcceptOptions& options, const Voice& voice) {
  OptionProblems problems(voice.problems);
  check_station_option(farm, options.station, problems);
  const auto quantity = quantity_option(options.quantity, problems);
  const auto from = day_option("--from", options.from, problems);
  const auto to = options.to.empty() ? from : day_option("--to", options.to, problems);
  if (from && to && *to < *from) problems.add("--to: lies before --from");
  if (problems.any() || !quantity || !from || !to) return exit_bad_input;
  Database database = open_store(farm.store.path, farm.store.durability);
  AcceptedStore(database).put(
      {.station = options.station, .quantity = *quantity, .from = *from, .to = *to}, wall_clock());
  voice.out << "accepted: " << options.quantity << " of station " << options.station << ", "
            << date_text(*from) << " to " << date_text(*to)
            << "; a running daemon uses it within a minute\n";
  return exit_done;
}

}  // namespace gley::daemon

#include "daemon/board/documents/health.hpp"

#include <algorithm>

#include "daemon/board/words/local_time.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

using Json = nlohmann::ordered_json;

/// The board is made anew each minute at least.
constexpr std::chrono::minutes board_stands_at_most{5};

std::string minutes_text(std::chrono::seconds span) {
  return std::to_string(std::chrono::duration_cast<std::chrono::minutes>(span).count()) + " min";
}

void judge_broker(const BoardSnapshot& board, const Workings& workings, Health& health) {
  if (!workings.broker_away) return;
  std::string text = "no connection to the broker at " + board.service.broker + " for " +
                     minutes_text(*workings.broker_away);
  if (!board.service.broker_message.empty()) text += ": " + board.service.broker_message;
  const bool long_away = *workings.broker_away >= workings.broker_away_allowed;
  (long_away ? health.ill : health.noted).push_back({"broker_away", std::move(text)});
}

/// One silent station is an alert of its own; with all of them silent nothing comes in. A daemon
/// that has just started waits for the first.
void judge_stations(const BoardSnapshot& board, const Workings& workings, Health& health) {
  Instant last = board.service.started.value_or(workings.now);
  for (const StationView& station : board.stations)
    if (station.last_heard) last = std::max(last, *station.last_heard);
  const auto silent = std::chrono::duration_cast<std::chrono::seconds>(workings.now - last);
  if (silent <= workings.silence_allowed || board.stations.empty()) return;
  health.ill.push_back({"no_readings", "no station has sent a good reading for " +
                                           minutes_text(silent) +
                                           ": look at the stations and their way to the broker"});
}

Json listed(const std::vector<HealthReason>& reasons) {
  return json_list(reasons, [](const HealthReason& reason) {
    return Json{{"reason", reason.what}, {"text", reason.text}};
  });
}

}  // namespace

Health health_of(const BoardSnapshot& board, const Workings& workings) {
  Health health;
  if (!board.service.store_message.empty())
    health.ill.push_back(
        {"store_not_written", "the store cannot be written: " + board.service.store_message});
  if (workings.message_stuck)
    health.ill.push_back({"message_stuck",
                          "a message has been on its way to the store for over a minute: the disk "
                          "does not answer"});
  if (workings.stood_still)
    health.ill.push_back({"stood_still", "the daemon stood still for " +
                                             std::to_string(workings.stood_still->count()) +
                                             " s within the last minute: the disk or the machine "
                                             "is overloaded"});
  const auto board_age =
      std::chrono::duration_cast<std::chrono::seconds>(workings.now - board.time);
  if (board_age > board_stands_at_most)
    health.ill.push_back(
        {"board_old", "the board has not been made anew for " + minutes_text(board_age)});
  judge_broker(board, workings, health);
  judge_stations(board, workings, health);
  return health;
}

std::string health_json(const Health& health, const Workings& workings) {
  return json_text(Json{{"status", health.ill.empty() ? "ok" : "ill"},
                        {"time", rfc3339(workings.now)},
                        {"reasons", listed(health.ill)},
                        {"notes", listed(health.noted)}});
}

}  // namespace gley::daemon

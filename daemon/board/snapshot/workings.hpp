#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

#include "daemon/board/snapshot/histogram.hpp"
#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// How the daemon's own work goes, for those that watch it: looked up when they ask, and no part of
/// what is shown of the fields.
struct Workings {
  Instant now{};  ///< when these were looked up
  std::uint64_t forecasts_stored = 0;
  std::uint64_t broker_connects = 0;
  std::uint64_t broker_clients_replaced = 0;
  std::uint64_t messages_received = 0;
  std::uint64_t messages_published = 0;
  std::uint64_t publish_failures = 0;
  std::uint64_t messages_waiting = 0;       ///< to be published
  std::uint64_t messages_on_their_way = 0;  ///< published, and not acknowledged by the broker
  std::uint64_t event_clients = 0;
  std::vector<std::pair<std::string_view, std::uint64_t>> http_refused;  ///< by why
  std::optional<std::chrono::seconds> broker_away;  ///< for how long; empty while connected
  std::optional<std::chrono::seconds> stood_still;  ///< the state's thread, in the last minute
  bool message_stuck = false;                       ///< in the store's hands for over a minute
  std::chrono::seconds broker_away_allowed{600};
  std::chrono::seconds silence_allowed{21600};

  Histogram store_write{work_bounds_s()};       ///< a message's way into the store
  Histogram reading_delay{delay_bounds_s()};    ///< arrival after the reading's own time
  Histogram reading_to_board{work_bounds_s()};  ///< from the store to the board
  Histogram fields_step{work_bounds_s()};       ///< all fields stepped up to now
};

}  // namespace gley::daemon

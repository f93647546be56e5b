#pragma once
#include <chrono>
#include <deque>
#include <map>
#include <optional>
#include <string>

#include "daemon/store/reading_store.hpp"

namespace gley::daemon {

/// Holds the times that stations give against the moments at which their readings came. A clock
/// that is an hour or a day off shows as a steady difference; a radio gap or an hourly report does
/// not, as its newest reading is soon heard. Looks only at what came lately and is never used for
/// the days: a wrong clock is said, not corrected. Owned by one thread.
class StationClocks {
 public:
  void note(const StoredReading& row);

  /// By how much a station's clock is behind (negative: ahead); empty if it seems right, or too
  /// little came within the last day to tell.
  [[nodiscard]] std::optional<std::chrono::minutes> behind(const std::string& station,
                                                           Instant now) const;

 private:
  /// What came at one moment, by the newest time in it.
  struct Arrival {
    Instant received{};
    std::chrono::milliseconds lag{0};
  };
  std::map<std::string, std::deque<Arrival>> arrivals_;
};

}  // namespace gley::daemon

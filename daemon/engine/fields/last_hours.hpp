#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>

#include "daemon/engine/fields/day_keeper.hpp"

namespace gley::daemon {

/// What the stations measured in the hours up to a moment, whatever day they belong to. Owned by
/// one thread.
class LastHours {
 public:
  LastHours(const FarmConfig& farm, const DayKeeper& keeper);

  /// Looks up what may have become another; the rest of it once a minute.
  void look(Instant now);

  /// Rain of the last 24 hours at a station; absent where its readings do not reach back so far.
  [[nodiscard]] std::optional<double> rain_24h_mm(const std::string& station) const;

  /// Hours a station has been without rain, at least, in steps up to 72.
  [[nodiscard]] std::optional<double> dry_h(const std::string& station) const;

  /// Hours below 0 degC of the last 24 at a station, each reading standing until the next and 2
  /// hours at most; absent where more than 4 hours are left untold. Both are our choice.
  [[nodiscard]] std::optional<double> frozen_h(const std::string& station) const;

 private:
  struct Rain {
    std::optional<double> mm;
    Instant until{};
    Instant holds_until{};   ///< the same up to any moment before this one, unless readings come
    std::uint64_t rows = 0;  ///< of the station that had been seen
  };
  struct Station {
    std::optional<Rain> rain_24h;
    std::optional<double> dry_h;
    std::optional<double> frozen_h;
  };
  [[nodiscard]] Rain rain_of(const std::string& station, std::chrono::milliseconds span,
                             Instant until) const;
  [[nodiscard]] std::optional<double> hours_dry(const std::string& station, Instant now) const;
  [[nodiscard]] std::optional<double> hours_below_zero(const std::string& station, Instant from,
                                                       Instant until) const;

  const DayKeeper& keeper_;
  FarmCalendar calendar_;
  std::map<std::string, Station> stations_;
  std::optional<Instant> spells_of_;  ///< when dry and frozen hours were looked up
};

}  // namespace gley::daemon

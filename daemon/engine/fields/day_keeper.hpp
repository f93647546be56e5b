#pragma once
#include <chrono>
#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>

#include "daemon/engine/fields/field_book.hpp"
#include "daemon/engine/weather/station_clocks.hpp"
#include "daemon/readings/farm_day.hpp"
#include "daemon/store/accepted_store.hpp"
#include "daemon/store/loaded_days.hpp"
#include "daemon/store/reading_store.hpp"

namespace gley::daemon {

/// What the sources of one quantity of a station sent in a day.
struct QuantitySources {
  std::string station;
  Quantity quantity = Quantity::rain;
  std::vector<SourceCount> sources;
};

/// What is doubted of a station's readings.
struct StationDoubt {
  std::string station;
  Doubt doubt;
};

/// Keeps the book's day records in step with the store: gathers the readings of every day that a
/// new row touches, late ones too. A loaded day stands until live readings make it complete. The
/// thread of its Database.
class DayKeeper {
 public:
  /// checkpoint: of an earlier keeper of the same farm and store, to go on from where it still
  /// holds.
  DayKeeper(const FarmConfig& farm, Database& database, FieldBook& book,
            const std::optional<Checkpoint>& checkpoint = {});

  /// Takes in all rows entered since the last call.
  void catch_up();

  /// Whether it went on from the checkpoint it was given.
  [[nodiscard]] bool went_on() const { return went_on_; }

  /// What a later keeper can go on from; empty while days wait to be closed.
  [[nodiscard]] std::optional<Checkpoint> checkpoint() const;

  /// What a station sent in a span of time, with what its counts are measured from and what is
  /// accepted of the day.
  [[nodiscard]] DayReadings readings_in(const std::string& station, TimeSpan span,
                                        std::chrono::sys_days day) const;

  /// Of a station's readings that count, those of a span of time.
  [[nodiscard]] std::vector<Reading> readings_between(const std::string& station,
                                                      TimeSpan span) const;

  /// The time of a station's first reading that counts.
  [[nodiscard]] std::optional<Instant> first_heard(const std::string& station) const;

  /// Rises with each reading of a station that counts, and with what is accepted of it.
  [[nodiscard]] std::uint64_t rows(const std::string& station) const;

  /// The sources of all that stations sent on a day, by station and quantity.
  [[nodiscard]] std::vector<QuantitySources> sources(const std::vector<std::string>& stations,
                                                     std::chrono::sys_days day) const;

  /// What is doubted of the readings that stations sent on a day.
  [[nodiscard]] std::vector<StationDoubt> doubts(const std::vector<std::string>& stations,
                                                 std::chrono::sys_days day) const;

  /// When each station was last heard: the time of its latest reading that counts.
  [[nodiscard]] const std::map<std::string, Instant>& last_heard() const { return last_heard_; }

  /// Whose clocks are steadily off, by arrival of what they sent.
  [[nodiscard]] const StationClocks& clocks() const { return clocks_; }

  /// When readings without a time of their own last came out of the broker's backlog, by station.
  [[nodiscard]] const std::map<std::string, Instant>& time_unknown() const { return time_unknown_; }

 private:
  using Touched = std::set<std::pair<std::string, std::chrono::sys_days>>;

  void take_whole_store();
  void read_accepted();
  void take_accepted();
  [[nodiscard]] AcceptedQuantities accepted_on(const std::string& station,
                                               std::chrono::sys_days day) const;
  void take_station(const std::string& station);
  void note_extent(const std::string& station);
  void note(const StoredReading& row, Touched& touched, Touched& measured_from);
  void add_followers(const Touched& measured_from, Touched& touched);
  void put_day(const std::string& station, std::chrono::sys_days day);
  /// Those of the span on which the station was heard.
  void put_days(const std::string& station, std::chrono::sys_days from, std::chrono::sys_days to);
  [[nodiscard]] DayReadings readings_of(const std::string& station,
                                        std::chrono::sys_days day) const;

  const FarmConfig& farm_;
  FarmCalendar calendar_;
  FieldBook& book_;
  mutable ReadingStore readings_;  ///< its statements step when asked
  AcceptedStore accepted_store_;
  std::vector<AcceptedDays> accepted_;
  std::int64_t accepted_id_ = 0;
  StationClocks clocks_;
  std::map<std::string, DaysOfWeather> loaded_;
  std::uint64_t given_checksum_ = 0;  ///< of both
  std::map<std::string, Instant> first_heard_;
  std::map<std::string, Instant> last_heard_;
  std::map<std::string, Instant> time_unknown_;
  std::map<std::string, std::uint64_t> rows_;  ///< by station, seen since the start
  std::int64_t seen_id_ = 0;
  bool went_on_ = false;
};

}  // namespace gley::daemon

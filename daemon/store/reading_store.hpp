#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/readings/decoded_message.hpp"
#include "daemon/readings/reading.hpp"
#include "daemon/store/database.hpp"
#include "daemon/store/source_table.hpp"

namespace gley::daemon {

/// A reading as it stands in the store.
struct StoredReading {
  std::int64_t id = 0;  ///< rises with each row, never used twice
  Reading reading;
  ReadingStatus status = ReadingStatus::used;
  Instant received{};
};

/// Half-open: from <= time < to.
struct TimeSpan {
  Instant from{};
  Instant to{};
};

/// Reads readings back. Sees what the Inbox has committed. The thread of its Database.
class ReadingStore {
 public:
  explicit ReadingStore(Database& database);

  /// Rows entered after the one named, oldest first, whatever their status; at most so many.
  [[nodiscard]] std::vector<StoredReading> after(std::int64_t id, int at_most);
  [[nodiscard]] std::int64_t last_id();

  /// A station's readings that count, corrections applied, in order of time, then quantity, source
  /// and form: the same however they arrived.
  [[nodiscard]] std::vector<Reading> between(std::string_view station, TimeSpan span);

  /// Of each source of counts or rates, the last one before the moment: from it the next one is
  /// measured.
  [[nodiscard]] std::vector<Reading> last_before(std::string_view station, Instant moment);
  /// Of each source of counts or rates, the first one at the moment or later.
  [[nodiscard]] std::vector<Reading> first_from(std::string_view station, Instant moment);

  /// Times of the first and the last reading that counts.
  struct Extent {
    Instant first{};
    Instant last{};
  };
  [[nodiscard]] std::optional<Extent> extent(std::string_view station);

  /// By station, when the last reading of unknown time was received.
  [[nodiscard]] std::map<std::string, Instant> last_time_unknown();

 private:
  struct Source {
    std::int64_t id = 0;
    SourceKey key;
  };
  [[nodiscard]] std::vector<Source> sources_of(std::string_view station);
  [[nodiscard]] std::vector<Reading> one_of_each(Statement& query, std::string_view station,
                                                 Instant moment);
  [[nodiscard]] std::optional<Instant> edge_time(Statement& edge, std::int64_t source);

  Statement after_;
  Statement last_id_;
  Statement sources_;
  Statement between_;
  Statement last_before_;
  Statement first_from_;
  Statement first_time_;
  Statement last_time_;
  Statement time_unknown_;
};

}  // namespace gley::daemon

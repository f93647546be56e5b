#pragma once
#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <utility>

#include "daemon/readings/decoded_message.hpp"
#include "daemon/store/database.hpp"
#include "daemon/store/source_table.hpp"
#include "daemon/store/told_store.hpp"

namespace gley::daemon {

/// Takes messages into the store: one transaction a message, on disk when the call returns. Has a
/// connection of its own. Used by one thread at a time: the one that receives messages.
class Inbox {
 public:
  /// The store must stand already (see open_store).
  Inbox(const std::filesystem::path& file, Durability durability);

  struct Stored {
    int added = 0;
    int repeated = 0;  ///< met their own row: they count once
  };
  /// Stores every reading of the message. Throws StoreError, and then has stored none of them.
  Stored store(const DecodedMessage& message, Instant received);

  /// Keeps a forecast as it came; true if it was not there already. Throws StoreError.
  bool store_forecast(std::string_view topic, std::string_view payload, Instant received);

  /// Keeps what people tell; throws StoreError.
  [[nodiscard]] ToldStore& told() { return told_; }

 private:
  /// By how much to move the arrival of a reading without a time of its own, so that two in one
  /// millisecond stay two readings.
  std::chrono::milliseconds step_aside(const Reading& reading, Instant received) const;

  /// False if its row stands already.
  bool insert(const DecodedReading& decoded, Instant time, Instant received);

  /// Whether a later value corrected the one that comes again. Then its row is taken away, for a
  /// correction was taken back and the value is to stand last.
  bool was_corrected(const DecodedReading& decoded, Instant time);

  Database database_;
  SourceTable sources_;
  Statement insert_;
  Statement remove_corrected_;
  Statement find_forecast_;
  Statement insert_forecast_;
  ToldStore told_;
  /// By station and source: the arrival last given to a reading without a time.
  std::map<std::pair<std::string, std::string>, Instant> last_arrival_;
};

}  // namespace gley::daemon

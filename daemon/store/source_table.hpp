#pragma once
#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>

#include "daemon/readings/reading.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// What all readings of one source share.
struct SourceKey {
  std::string station;
  Quantity quantity = Quantity::rain;
  ReadingForm form = ReadingForm::instant;
  std::string name;
};

/// The number of a reading's source in the store, entered if it is new. Remembers what it saw.
/// The thread of its Database.
class SourceTable {
 public:
  explicit SourceTable(Database& database);
  /// Within a transaction. After a roll-back call `forget`: what it entered is gone.
  std::int64_t id_of(const Reading& reading);
  void forget() { known_.clear(); }

 private:
  std::optional<std::int64_t> look_up(const Reading& reading);

  Statement find_;
  Statement insert_;
  std::map<std::tuple<std::string, Quantity, ReadingForm, std::string>, std::int64_t> known_;
};

/// From the words of the store; throws StoreError for one this program does not know.
[[nodiscard]] Quantity quantity_of(const std::string& word);
[[nodiscard]] ReadingForm form_of(const std::string& word);

}  // namespace gley::daemon

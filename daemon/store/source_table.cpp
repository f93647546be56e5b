#include "daemon/store/source_table.hpp"

#include <sqlite3.h>

#include "daemon/farm/word.hpp"
#include "daemon/store/store_error.hpp"

namespace gley::daemon {
namespace {

[[noreturn]] void unknown_word(const std::string& word) {
  throw StoreError("the store names '" + word + "', which is no quantity or form", SQLITE_CORRUPT);
}

}  // namespace

SourceTable::SourceTable(Database& database)
    : find_(database.prepare(
          "SELECT id FROM source WHERE station=? AND quantity=? AND form=? AND name=?")),
      insert_(database.prepare(
          "INSERT INTO source(station, quantity, form, name) VALUES(?, ?, ?, ?)")) {}

std::int64_t SourceTable::id_of(const Reading& reading) {
  const auto key = std::tuple(reading.station, reading.quantity, reading.form, reading.source);
  const auto known = known_.find(key);
  if (known != known_.end()) return known->second;
  auto id = look_up(reading);
  if (!id) {
    insert_.run(reading.station, to_word(reading.quantity), to_word(reading.form), reading.source);
    id = look_up(reading);
  }
  known_.emplace(key, id.value());
  return id.value();
}

std::optional<std::int64_t> SourceTable::look_up(const Reading& reading) {
  std::optional<std::int64_t> id;
  find_.visit([&](const Row& row) { id = row.integer(0); }, reading.station,
              to_word(reading.quantity), to_word(reading.form), reading.source);
  return id;
}

Quantity quantity_of(const std::string& word) {
  const auto quantity = from_word<Quantity>(word);
  if (!quantity) unknown_word(word);
  return *quantity;
}

ReadingForm form_of(const std::string& word) {
  const auto form = from_word<ReadingForm>(word);
  if (!form) unknown_word(word);
  return *form;
}

}  // namespace gley::daemon

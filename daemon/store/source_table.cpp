#include "daemon/store/source_table.hpp"

#include <sqlite3.h>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {
namespace {

[[noreturn]] void unknown_word(std::string_view word) {
  throw StoreError("the store names '" + std::string(word) + "', which is no quantity or form",
                   SQLITE_CORRUPT);
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

Quantity quantity_of(std::string_view word) {
  for (const Quantity quantity :
       {Quantity::rain, Quantity::temperature, Quantity::humidity, Quantity::dew_point,
        Quantity::wind, Quantity::sunshine, Quantity::radiation, Quantity::irrigation}) {
    if (to_word(quantity) == word) return quantity;
  }
  unknown_word(word);
}

ReadingForm form_of(std::string_view word) {
  for (const ReadingForm form :
       {ReadingForm::interval, ReadingForm::counter, ReadingForm::rate, ReadingForm::instant}) {
    if (to_word(form) == word) return form;
  }
  unknown_word(word);
}

}  // namespace gley::daemon

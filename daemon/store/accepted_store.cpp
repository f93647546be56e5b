#include "daemon/store/accepted_store.hpp"

#include <sqlite3.h>

#include "daemon/readings/date_text.hpp"
#include "daemon/store/source_table.hpp"
#include "daemon/store/store_error.hpp"

namespace gley::daemon {
namespace {

std::chrono::sys_days date_in(const std::string& text) {
  const auto date = date_from(text);
  if (!date) throw StoreError("an accepted day has the date '" + text + "'", SQLITE_CORRUPT);
  return *date;
}

}  // namespace

AcceptedStore::AcceptedStore(Database& database)
    : put_(database.prepare("INSERT INTO accepted(station, quantity, first_date, last_date,"
                            " accepted_ms) VALUES(?, ?, ?, ?, ?)")),
      last_id_(database.prepare("SELECT coalesce(max(id), 0) FROM accepted")),
      all_(database.prepare(
          "SELECT station, quantity, first_date, last_date FROM accepted ORDER BY id")) {}

void AcceptedStore::put(const AcceptedDays& days, Instant accepted) {
  put_.run(days.station, to_word(days.quantity), date_text(days.from), date_text(days.to),
           accepted.time_since_epoch().count());
}

std::int64_t AcceptedStore::last_id() {
  std::int64_t id = 0;
  last_id_.visit([&](const Row& row) { id = row.integer(0); });
  return id;
}

std::vector<AcceptedDays> AcceptedStore::all() {
  std::vector<AcceptedDays> days;
  all_.visit([&](const Row& row) {
    days.push_back({.station = row.text(0),
                    .quantity = quantity_of(row.text(1)),
                    .from = date_in(row.text(2)),
                    .to = date_in(row.text(3))});
  });
  return days;
}

}  // namespace gley::daemon

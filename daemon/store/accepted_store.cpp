#include "daemon/store/accepted_store.hpp"

#include "daemon/store/source_table.hpp"

namespace gley::daemon {

AcceptedStore::AcceptedStore(Database& database)
    : put_(database.prepare("INSERT INTO accepted(station, quantity, first_date, last_date,"
                            " accepted_ms) VALUES(?, ?, ?, ?, ?)")),
      last_id_(database.prepare("SELECT coalesce(max(id), 0) FROM accepted")),
      all_(database.prepare(
          "SELECT station, quantity, first_date, last_date FROM accepted ORDER BY id")) {}

void AcceptedStore::put(const AcceptedDays& days, Instant accepted) {
  put_.run(days.station, to_word(days.quantity), days.from, days.to, accepted);
}

std::int64_t AcceptedStore::last_id() {
  return last_id_.number();
}

std::vector<AcceptedDays> AcceptedStore::all() {
  std::vector<AcceptedDays> days;
  all_.visit([&](const Row& row) {
    days.push_back({.station = row.text(0),
                    .quantity = quantity_of(row.text(1)),
                    .from = row.date(2),
                    .to = row.date(3)});
  });
  return days;
}

}  // namespace gley::daemon

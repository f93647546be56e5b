#include "daemon/store/alert_store.hpp"

#include <limits>
#include <nlohmann/json.hpp>

namespace gley::daemon {
namespace {

std::optional<std::int64_t> milliseconds(const std::optional<Instant>& instant) {
  if (!instant) return {};
  return instant->time_since_epoch().count();
}

Instant instant(std::int64_t ms) {
  return Instant(std::chrono::milliseconds(ms));
}

std::string to_json(const std::vector<std::string>& ids) {
  return nlohmann::json(ids).dump();
}

std::vector<std::string> from_json(const std::string& text) {
  return nlohmann::json::parse(text).get<std::vector<std::string>>();
}

StoredAlert alert_of(const Row& row) {
  StoredAlert alert{.id = row.text(0),
                    .event = row.text(1),
                    .subject = row.text(10),
                    .fields = from_json(row.text(2)),
                    .active = from_json(row.text(3)),
                    .severity = row.text(4),
                    .onset = instant(row.integer(5)),
                    .ended = {},
                    .headline = row.text(7),
                    .seen_by = {},
                    .seen = {}};
  if (const auto ended = row.optional_integer(6)) alert.ended = instant(*ended);
  if (!row.is_null(8)) alert.seen_by = row.text(8);
  if (const auto seen = row.optional_integer(9)) alert.seen = instant(*seen);
  return alert;
}

constexpr const char* select =
    "SELECT id, event, fields, active, severity, onset_ms, ended_ms, headline, seen_by, seen_ms,"
    " subject"
    " FROM alert WHERE ";

std::vector<StoredAlert> alerts(Statement& statement, std::int64_t argument) {
  std::vector<StoredAlert> found;
  statement.visit([&](const Row& row) { found.push_back(alert_of(row)); }, argument);
  return found;
}

}  // namespace

AlertStore::AlertStore(Database& database)
    : put_(database.prepare(
          "INSERT INTO alert(id, event, fields, active, severity, onset_ms, ended_ms, headline,"
          " subject) VALUES(?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9) ON CONFLICT(id) DO UPDATE SET"
          " event = ?2, fields = ?3, active = ?4, severity = ?5, onset_ms = ?6, ended_ms = ?7,"
          " headline = ?8, subject = ?9")),
      seen_(database.prepare(
          "UPDATE alert SET seen_by = ?2, seen_ms = ?3 WHERE id = ?1 AND seen_by IS NULL")),
      open_(database.prepare(std::string(select) +
                             "ended_ms IS NULL AND onset_ms >= ? ORDER BY onset_ms, id")),
      since_(database.prepare(std::string(select) + "onset_ms >= ? ORDER BY onset_ms, id")),
      ended_(database.prepare(std::string(select) +
                              "ended_ms >= ? ORDER BY ended_ms DESC, id LIMIT ?")),
      find_(database.prepare(std::string(select) + "id = ?")) {}

void AlertStore::put(const StoredAlert& alert) {
  put_.run(alert.id, alert.event, to_json(alert.fields), to_json(alert.active), alert.severity,
           alert.onset.time_since_epoch().count(), milliseconds(alert.ended), alert.headline,
           alert.subject);
}

bool AlertStore::mark_seen(std::string_view id, std::string_view who, Instant when) {
  seen_.run(id, who, when.time_since_epoch().count());
  return seen_.changes() > 0;
}

std::vector<StoredAlert> AlertStore::open() {
  return alerts(open_, std::numeric_limits<std::int64_t>::min());
}

std::vector<StoredAlert> AlertStore::ended_since(Instant moment, int most) {
  std::vector<StoredAlert> found;
  ended_.visit([&](const Row& row) { found.push_back(alert_of(row)); },
               moment.time_since_epoch().count(), most);
  return found;
}

std::optional<StoredAlert> AlertStore::find(std::string_view id) {
  std::optional<StoredAlert> found;
  find_.visit([&](const Row& row) { found = alert_of(row); }, id);
  return found;
}

std::vector<StoredAlert> AlertStore::since(Instant moment) {
  return alerts(since_, moment.time_since_epoch().count());
}

}  // namespace gley::daemon

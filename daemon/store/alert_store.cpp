#include "daemon/store/alert_store.hpp"

#include <nlohmann/json.hpp>

namespace gley::daemon {
namespace {

std::string to_json(const std::vector<std::string>& ids) {
  return nlohmann::json(ids).dump();
}

std::vector<std::string> from_json(const std::string& text) {
  return nlohmann::json::parse(text).get<std::vector<std::string>>();
}

StoredAlert alert_of(const Row& row) {
  return {.id = row.text(0),
          .event = row.text(1),
          .subject = row.text(10),
          .fields = from_json(row.text(2)),
          .active = from_json(row.text(3)),
          .severity = row.text(4),
          .onset = row.instant(5),
          .ended = row.optional_instant(6),
          .headline = row.text(7),
          .seen_by = row.optional_text(8),
          .seen = row.optional_instant(9)};
}

constexpr const char* select =
    "SELECT id, event, fields, active, severity, onset_ms, ended_ms, headline, seen_by, seen_ms,"
    " subject"
    " FROM alert WHERE ";

template <class... Arguments>
std::vector<StoredAlert> alerts(Statement& statement, const Arguments&... arguments) {
  std::vector<StoredAlert> found;
  statement.visit([&](const Row& row) { found.push_back(alert_of(row)); }, arguments...);
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
      open_(database.prepare(std::string(select) + "ended_ms IS NULL ORDER BY onset_ms, id")),
      since_(database.prepare(std::string(select) + "onset_ms >= ? ORDER BY onset_ms, id")),
      ended_(database.prepare(std::string(select) +
                              "ended_ms >= ? ORDER BY ended_ms DESC, id LIMIT ?")),
      find_(database.prepare(std::string(select) + "id = ?")) {}

void AlertStore::put(const StoredAlert& alert) {
  put_.run(alert.id, alert.event, to_json(alert.fields), to_json(alert.active), alert.severity,
           alert.onset, alert.ended, alert.headline, alert.subject);
}

bool AlertStore::mark_seen(std::string_view id, std::string_view who, Instant when) {
  seen_.run(id, who, when);
  return seen_.changes() > 0;
}

std::vector<StoredAlert> AlertStore::open() {
  return alerts(open_);
}

std::vector<StoredAlert> AlertStore::ended_since(Instant moment, int most) {
  return alerts(ended_, moment, most);
}

std::optional<StoredAlert> AlertStore::find(std::string_view id) {
  std::optional<StoredAlert> found;
  find_.visit([&](const Row& row) { found = alert_of(row); }, id);
  return found;
}

std::vector<StoredAlert> AlertStore::since(Instant moment) {
  return alerts(since_, moment);
}

}  // namespace gley::daemon

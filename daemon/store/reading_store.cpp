#include "daemon/store/reading_store.hpp"

#include <algorithm>
#include <tuple>

namespace gley::daemon {
namespace {

/// Its time, where the time is from, and its value stand in three columns.
Reading reading_of(const SourceKey& source, const Row& row, int first_column) {
  return {.station = source.station,
          .quantity = source.quantity,
          .form = source.form,
          .source = source.name,
          .time = row.instant(first_column),
          .time_source = static_cast<TimeSource>(row.integer(first_column + 1)),
          .value = row.real(first_column + 2)};
}

SourceKey key_of(const Row& row, int first_column) {
  return {.station = row.text(first_column),
          .quantity = quantity_of(row.text(first_column + 1)),
          .form = form_of(row.text(first_column + 2)),
          .name = row.text(first_column + 3)};
}

}  // namespace

ReadingStore::ReadingStore(Database& database)
    : after_(database.prepare(
          "SELECT r.id, r.time_ms, r.time_source, r.value, r.status, r.received_ms,"
          " s.station, s.quantity, s.form, s.name"
          " FROM reading r JOIN source s ON s.id = r.source WHERE r.id > ? ORDER BY r.id LIMIT ?")),
      last_id_(database.prepare("SELECT coalesce(max(id), 0) FROM reading")),
      sources_(database.prepare(
          "SELECT id, station, quantity, form, name FROM source WHERE station = ?")),
      between_(database.prepare("SELECT time_ms, time_source, value FROM reading"
                                " WHERE source = ? AND status = 0 AND time_ms >= ? AND time_ms < ?"
                                " ORDER BY time_ms, id")),
      last_before_(database.prepare("SELECT time_ms, time_source, value FROM reading"
                                    " WHERE source = ? AND status = 0 AND time_ms < ?"
                                    " ORDER BY time_ms DESC, id DESC LIMIT 1")),
      first_from_(database.prepare("SELECT time_ms, time_source, value FROM reading"
                                   " WHERE source = ? AND status = 0 AND time_ms >= ?"
                                   " ORDER BY time_ms, id DESC LIMIT 1")),
      first_time_(database.prepare("SELECT time_ms FROM reading WHERE source = ? AND status = 0"
                                   " ORDER BY time_ms LIMIT 1")),
      last_time_(database.prepare("SELECT time_ms FROM reading WHERE source = ? AND status = 0"
                                  " ORDER BY time_ms DESC LIMIT 1")),
      // SQLite takes the index of what was set aside only where the index's own condition stands.
      time_unknown_(database.prepare(
          "SELECT s.station, max(r.received_ms) FROM reading r JOIN source s ON s.id = r.source"
          " WHERE r.status <> 0 AND r.status = 3 GROUP BY s.station")) {}

std::vector<StoredReading> ReadingStore::after(std::int64_t id, int at_most) {
  std::vector<StoredReading> rows;
  after_.visit(
      [&](const Row& row) {
        rows.push_back({.id = row.integer(0),
                        .reading = reading_of(key_of(row, 6), row, 1),
                        .status = static_cast<ReadingStatus>(row.integer(4)),
                        .received = row.instant(5)});
      },
      id, at_most);
  return rows;
}

std::int64_t ReadingStore::last_id() {
  return last_id_.number();
}

std::vector<ReadingStore::Source> ReadingStore::sources_of(std::string_view station) {
  std::vector<Source> sources;
  sources_.visit(
      [&](const Row& row) {
        sources.push_back({row.integer(0), key_of(row, 1)});
      },
      station);
  return sources;
}

std::vector<Reading> ReadingStore::between(std::string_view station, TimeSpan span) {
  std::vector<Reading> readings;
  for (const Source& source : sources_of(station)) {
    const auto first = readings.size();
    const auto take = [&](const Row& row) {
      Reading reading = reading_of(source.key, row, 0);
      const bool corrects = readings.size() > first && readings.back().time == reading.time;
      if (corrects) readings.pop_back();
      readings.push_back(std::move(reading));
    };
    between_.visit(take, source.id, span.from, span.to);
  }
  std::sort(readings.begin(), readings.end(), [](const Reading& a, const Reading& b) {
    return std::tie(a.time, a.quantity, a.source, a.form) <
           std::tie(b.time, b.quantity, b.source, b.form);
  });
  return readings;
}

std::vector<Reading> ReadingStore::one_of_each(Statement& query, std::string_view station,
                                               Instant moment) {
  std::vector<Reading> readings;
  for (const Source& source : sources_of(station)) {
    const ReadingForm form = source.key.form;
    if (form != ReadingForm::counter && form != ReadingForm::rate) continue;
    query.visit([&](const Row& row) { readings.push_back(reading_of(source.key, row, 0)); },
                source.id, moment);
  }
  return readings;
}

std::vector<Reading> ReadingStore::last_before(std::string_view station, Instant moment) {
  return one_of_each(last_before_, station, moment);
}

std::vector<Reading> ReadingStore::first_from(std::string_view station, Instant moment) {
  return one_of_each(first_from_, station, moment);
}

std::optional<Instant> ReadingStore::edge_time(Statement& edge, std::int64_t source) {
  std::optional<Instant> time;
  edge.visit([&](const Row& row) { time = row.instant(0); }, source);
  return time;
}

std::optional<ReadingStore::Extent> ReadingStore::extent(std::string_view station) {
  std::optional<Extent> extent;
  for (const Source& source : sources_of(station)) {
    const auto first = edge_time(first_time_, source.id);
    const auto last = edge_time(last_time_, source.id);
    if (!first || !last) continue;
    if (!extent) extent = Extent{*first, *last};
    extent->first = std::min(extent->first, *first);
    extent->last = std::max(extent->last, *last);
  }
  return extent;
}

std::map<std::string, Instant> ReadingStore::last_time_unknown() {
  std::map<std::string, Instant> received;
  time_unknown_.visit([&](const Row& row) { received[row.text(0)] = row.instant(1); });
  return received;
}

}  // namespace gley::daemon

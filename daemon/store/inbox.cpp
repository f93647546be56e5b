#include "daemon/store/inbox.hpp"

#include <cstdint>
#include <cstring>

namespace gley::daemon {
namespace {

/// FNV-1a, 64 bits (Fowler, Noll, Vo): only narrows the search, equal payloads are compared.
std::int64_t hash_of(std::string_view bytes) {
  std::uint64_t hash = 14695981039346656037ull;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ull;
  std::int64_t result = 0;
  std::memcpy(&result, &hash, sizeof(result));
  return result;
}

}  // namespace

Inbox::Inbox(const std::filesystem::path& file, Durability durability)
    : database_(file, durability),
      sources_(database_),
      // Not INSERT OR IGNORE: that would swallow a missing value, and so a reading.
      insert_(database_.prepare(
          "INSERT INTO reading(source, time_ms, time_source, value, status, received_ms)"
          " VALUES(?, ?, ?, ?, ?, ?) ON CONFLICT(source, time_ms, value, status) DO NOTHING")),
      remove_corrected_(database_.prepare(
          "DELETE FROM reading WHERE source = ?1 AND time_ms = ?2 AND value = ?3 AND status = ?4"
          " AND id < (SELECT max(id) FROM reading WHERE source = ?1 AND time_ms = ?2"
          "           AND status = ?4)")),
      find_forecast_(database_.prepare(
          "SELECT 1 FROM forecast WHERE topic=? AND hash=? AND payload=? LIMIT 1")),
      insert_forecast_(database_.prepare(
          "INSERT INTO forecast(topic, payload, hash, received_ms) VALUES(?, ?, ?, ?)")),
      told_(database_) {}

Inbox::Stored Inbox::store(const DecodedMessage& message, Instant received) try {
  Stored stored;
  if (message.readings.empty()) return stored;
  decltype(last_arrival_) arrivals;
  Transaction transaction(database_);
  for (const DecodedReading& decoded : message.readings) {
    const Reading& reading = decoded.reading;
    Instant time = reading.time;
    if (reading.time_source != TimeSource::payload) {
      const auto aside = step_aside(reading, received);
      time += aside;
      arrivals[{reading.station, reading.source}] = received + aside;
    }
    const bool added = insert(decoded, time, received) ||
                       (was_corrected(decoded, time) && insert(decoded, time, received));
    ++(added ? stored.added : stored.repeated);
  }
  transaction.commit();
  for (const auto& [source, arrival] : arrivals) last_arrival_[source] = arrival;
  return stored;
} catch (...) {
  sources_.forget();
  throw;
}

bool Inbox::insert(const DecodedReading& decoded, Instant time, Instant received) {
  const Reading& reading = decoded.reading;
  insert_.run(sources_.id_of(reading), time, static_cast<int>(reading.time_source), reading.value,
              static_cast<int>(decoded.status), received);
  return insert_.changes() > 0;
}

bool Inbox::was_corrected(const DecodedReading& decoded, Instant time) {
  remove_corrected_.run(sources_.id_of(decoded.reading), time, decoded.reading.value,
                        static_cast<int>(decoded.status));
  return remove_corrected_.changes() > 0;
}

std::chrono::milliseconds Inbox::step_aside(const Reading& reading, Instant received) const {
  using namespace std::chrono_literals;
  constexpr auto longest = 10s;  // beyond that the clock was set back, and its word counts
  const auto last = last_arrival_.find({reading.station, reading.source});
  if (last == last_arrival_.end() || last->second < received) return 0ms;
  const auto aside = last->second + 1ms - received;
  return aside > longest ? 0ms : aside;
}

bool Inbox::store_forecast(std::string_view topic, std::string_view payload, Instant received) {
  const auto hash = hash_of(payload);
  Transaction transaction(database_);
  bool known = false;
  find_forecast_.visit([&](const Row&) { known = true; }, topic, hash, Blob{payload});
  if (known) return false;
  insert_forecast_.run(topic, Blob{payload}, hash, received);
  transaction.commit();
  return true;
}

}  // namespace gley::daemon

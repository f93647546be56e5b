#include "daemon/store/schema.hpp"

#include <sqlite3.h>

#include <array>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {
namespace {

constexpr std::int64_t our_application_id = 0x676c6579;  // "gley"

constexpr const char* first_tables = R"sql(
-- Where readings come from: a station's quantity by one topic, record name or pointer.
CREATE TABLE source(
  id INTEGER PRIMARY KEY,
  station TEXT NOT NULL,
  quantity TEXT NOT NULL,
  form TEXT NOT NULL,
  name TEXT NOT NULL,
  UNIQUE(station, quantity, form, name));

-- Append-only. A message that comes again meets its own row; another value at the same time is a
-- correction and stands beside it, the last one counts. Status: 0 used, 1 too old, 2 in the
-- future, 3 time unknown. time_source: 0 payload, 1 arrival, 2 unknown.
CREATE TABLE reading(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  source INTEGER NOT NULL REFERENCES source(id),
  time_ms INTEGER NOT NULL,
  time_source INTEGER NOT NULL,
  value REAL NOT NULL,
  status INTEGER NOT NULL,
  received_ms INTEGER NOT NULL,
  UNIQUE(source, time_ms, value, status));
CREATE INDEX reading_aside ON reading(status) WHERE status <> 0;

CREATE TABLE loaded_day(
  station TEXT NOT NULL,
  date TEXT NOT NULL,
  rain_mm REAL, tmin_c REAL, tmax_c REAL, tmean_c REAL,
  rh_min_pct REAL, rh_max_pct REAL, rh_mean_pct REAL, dew_point_c REAL,
  wind_m_s REAL, sun_h REAL, solar_mj_m2 REAL, et0_mm REAL, irrigation_mm REAL,
  loaded_ms INTEGER NOT NULL,
  PRIMARY KEY(station, date)) WITHOUT ROWID;

CREATE TABLE forecast(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  topic TEXT NOT NULL,
  payload BLOB NOT NULL,
  hash INTEGER NOT NULL,
  received_ms INTEGER NOT NULL);
CREATE INDEX forecast_hash ON forecast(topic, hash);

CREATE TABLE alert(
  id TEXT PRIMARY KEY,
  event TEXT NOT NULL,
  fields TEXT NOT NULL,
  active TEXT NOT NULL,
  severity TEXT NOT NULL,
  onset_ms INTEGER NOT NULL,
  ended_ms INTEGER,
  headline TEXT NOT NULL,
  seen_by TEXT,
  seen_ms INTEGER) WITHOUT ROWID;

-- What can be made again from the tables above.
CREATE TABLE derived(
  name TEXT PRIMARY KEY,
  config_hash TEXT NOT NULL,
  model_version TEXT NOT NULL,
  body BLOB NOT NULL) WITHOUT ROWID;
)sql";

constexpr const char* days_of_forecasts = R"sql(
-- What a farm day's first forecast said of a day to come, for its score once that day has passed.
-- rain_mm, tmean_c: mean of the members as sent; members: how many; rain_members: the rain of the
-- members in use, dressed if there was one, numbers with spaces between.
CREATE TABLE forecast_day(
  issued TEXT NOT NULL,
  date TEXT NOT NULL,
  members INTEGER NOT NULL,
  rain_mm REAL NOT NULL,
  tmean_c REAL,
  rain_members TEXT NOT NULL,
  PRIMARY KEY(issued, date)) WITHOUT ROWID;
)sql";

constexpr const char* accepted_days = R"sql(
-- What a person said is right although a quality check doubts it, from one farm day to another.
CREATE TABLE accepted(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  station TEXT NOT NULL,
  quantity TEXT NOT NULL,
  first_date TEXT NOT NULL,
  last_date TEXT NOT NULL,
  accepted_ms INTEGER NOT NULL);
)sql";

constexpr const char* what_people_tell = R"sql(
-- What was spread, done and seen, as people told it. Append-only, for good. rate in unit; via: mqtt,
-- http or command; told_by: a name, empty if none was given.
CREATE TABLE dressing(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  field TEXT NOT NULL,
  material TEXT NOT NULL,
  rate REAL NOT NULL,
  unit TEXT NOT NULL,
  time_ms INTEGER NOT NULL,
  via TEXT NOT NULL,
  told_by TEXT NOT NULL,
  told_ms INTEGER NOT NULL,
  UNIQUE(field, material, rate, unit, time_ms));
CREATE TABLE field_report(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  field TEXT NOT NULL,
  report TEXT NOT NULL,
  machine TEXT NOT NULL,
  time_ms INTEGER NOT NULL,
  via TEXT NOT NULL,
  told_by TEXT NOT NULL,
  told_ms INTEGER NOT NULL,
  UNIQUE(field, report, machine, time_ms));
CREATE TRIGGER dressing_stays BEFORE UPDATE ON dressing
  BEGIN SELECT RAISE(ABORT, 'a dressing that was told stays as it is'); END;
CREATE TRIGGER dressing_is_kept BEFORE DELETE ON dressing
  BEGIN SELECT RAISE(ABORT, 'a dressing that was told is kept'); END;
CREATE TRIGGER field_report_stays BEFORE UPDATE ON field_report
  BEGIN SELECT RAISE(ABORT, 'a report that was told stays as it is'); END;
CREATE TRIGGER field_report_is_kept BEFORE DELETE ON field_report
  BEGIN SELECT RAISE(ABORT, 'a report that was told is kept'); END;

-- What an alert is about beside its fields: a machine's id; empty for most.
ALTER TABLE alert ADD COLUMN subject TEXT NOT NULL DEFAULT '';
CREATE INDEX alert_onset ON alert(onset_ms);
)sql";

// Each entry takes a store from the version of its place to the next. Never change one that has
// been released: add another.
constexpr std::array<const char*, schema_version> migrations{first_tables, days_of_forecasts,
                                                             accepted_days, what_people_tell};

std::int64_t version_of(const Database& database) {
  return database.number("PRAGMA user_version");
}

void check_ours(const Database& database, std::int64_t version) {
  const auto id = database.number("PRAGMA application_id");
  const bool fresh = version == 0 && database.number("SELECT count(*) FROM sqlite_master") == 0;
  if (id == our_application_id || (fresh && id == 0)) return;
  throw StoreError(database.file() +
                       ": a database of another program; name another file in "
                       "[store] path",
                   SQLITE_NOTADB);
}

void check_not_newer(const Database& database, std::int64_t version) {
  if (version <= schema_version) return;
  throw StoreError(database.file() + ": written by a newer gleyd (schema " +
                       std::to_string(version) + ", this one knows " +
                       std::to_string(schema_version) + "); start that one, or restore a backup",
                   SQLITE_ERROR);
}

void migrate(Database& database) {
  check_ours(database, version_of(database));
  check_not_newer(database, version_of(database));
  // Kept in the file: readers see the last commit while a writer writes.
  database.execute("PRAGMA journal_mode = WAL");
  if (version_of(database) == schema_version) return;
  Transaction transaction(database);
  // Read again under the lock: another process may have migrated meanwhile.
  for (auto version = version_of(database); version < schema_version; ++version) {
    database.execute(migrations[static_cast<std::size_t>(version)]);
  }
  database.execute("PRAGMA application_id = " + std::to_string(our_application_id));
  database.execute("PRAGMA user_version = " + std::to_string(schema_version));
  transaction.commit();
}

}  // namespace

Database open_store(const std::filesystem::path& file, Durability durability) {
  Database database(file, durability);
  migrate(database);
  return database;
}

}  // namespace gley::daemon

-- A store as schema version 1 left it, dumped as text; made by hand from an empty one.
PRAGMA foreign_keys = OFF;
PRAGMA application_id = 1735157113;
PRAGMA user_version = 1;
BEGIN TRANSACTION;
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
INSERT INTO "alert" VALUES('waterlogged-2026-03-01t1200z','waterlogged','["top"]','["top"]','Severe',1772366400000,NULL,'Waterlogged',NULL,NULL);
CREATE TABLE derived(
  name TEXT PRIMARY KEY,
  config_hash TEXT NOT NULL,
  model_version TEXT NOT NULL,
  body BLOB NOT NULL) WITHOUT ROWID;
CREATE TABLE forecast(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  topic TEXT NOT NULL,
  payload BLOB NOT NULL,
  hash INTEGER NOT NULL,
  received_ms INTEGER NOT NULL);
INSERT INTO "forecast" VALUES(1,'weather/forecast',X'7B7D',1,1772409600000);
CREATE TABLE loaded_day(
  station TEXT NOT NULL,
  date TEXT NOT NULL,
  rain_mm REAL, tmin_c REAL, tmax_c REAL, tmean_c REAL,
  rh_min_pct REAL, rh_max_pct REAL, rh_mean_pct REAL, dew_point_c REAL,
  wind_m_s REAL, sun_h REAL, solar_mj_m2 REAL, et0_mm REAL, irrigation_mm REAL,
  loaded_ms INTEGER NOT NULL,
  PRIMARY KEY(station, date)) WITHOUT ROWID;
INSERT INTO "loaded_day" VALUES('yard','2026-03-01',4.2,1.5,8.25,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,1795620360813);
INSERT INTO "loaded_day" VALUES('yard','2026-03-02',0.0,0.5,9.0,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,NULL,1795620360813);
CREATE TABLE reading(
  id INTEGER PRIMARY KEY AUTOINCREMENT,
  source INTEGER NOT NULL REFERENCES source(id),
  time_ms INTEGER NOT NULL,
  time_source INTEGER NOT NULL,
  value REAL NOT NULL,
  status INTEGER NOT NULL,
  received_ms INTEGER NOT NULL,
  UNIQUE(source, time_ms, value, status));
INSERT INTO "reading" VALUES(1,1,1772409600000,0,1.4,0,1772409601000);
CREATE TABLE source(
  id INTEGER PRIMARY KEY,
  station TEXT NOT NULL,
  quantity TEXT NOT NULL,
  form TEXT NOT NULL,
  name TEXT NOT NULL,
  UNIQUE(station, quantity, form, name));
INSERT INTO "source" VALUES(1,'yard','rain','interval','weather/yard/pack#rain');
CREATE INDEX reading_aside ON reading(status) WHERE status <> 0;
CREATE INDEX forecast_hash ON forecast(topic, hash);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('reading',1);
INSERT INTO "sqlite_sequence" VALUES('forecast',1);
COMMIT;

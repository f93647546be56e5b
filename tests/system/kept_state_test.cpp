#include <catch2/catch.hpp>
#include <csignal>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"
#include "tests/unit/store/farm_store.hpp"

using namespace gley::tests;
using namespace gley::daemon;
using namespace std::chrono;

namespace {

FarmText two_fields() {
  FarmText farm;
  farm.fields = field_text("top") + field_text("clay", {.soil = "clay",
                                                        .drainage = "slow",
                                                        .crop = "winter wheat",
                                                        .more = "pipe_drains = true"});
  return farm;
}

/// Puts readings into the store as the daemon's own intake does, with no daemon there.
void put(const Gleyd& gleyd, const std::vector<Reading>& readings) {
  Inbox inbox(gleyd.store(), Durability::process);
  DecodedMessage message;
  for (const Reading& one : readings) message.readings.push_back({one, ReadingStatus::used});
  (void)inbox.store(message, time_point_cast<milliseconds>(system_clock::now()));
}

std::vector<Reading> hours_of(sys_days from, sys_days to) {
  std::vector<Reading> readings;
  for (Instant time = from + hours{1}; time <= Instant{to}; time += hours{1}) {
    const auto n = time.time_since_epoch() / hours{1};
    readings.push_back(rain_reading("yard", time, n % 11 == 0 ? 2.3 : 0.0));
    readings.push_back(air_reading("yard", time, 6.0 + static_cast<double>(n % 24 + n % 5) / 3.0));
  }
  return readings;
}

std::int64_t number(const Gleyd& gleyd, const std::string& sql) {
  return Database(gleyd.store(), Durability::process).number(sql);
}

void change(const Gleyd& gleyd, const std::string& sql) {
  Database(gleyd.store(), Durability::process).execute(sql);
}

bool eventually_keeps(const Gleyd& gleyd) {
  return eventually(
      [&] { return number(gleyd, "SELECT count(*) FROM derived WHERE name = 'checkpoint'") == 1; });
}

/// All that the fields have come to: every day of each, and the board's fields.
std::string told(const Gleyd& gleyd) {
  return gleyd.get("/api/field/top/days.csv").body + gleyd.get("/api/field/clay/days.csv").body +
         gleyd.json("/api/board").at("fields").dump();
}

/// Starts, and returns what is told and how the start said it went.
struct Start {
  std::string told;
  std::string log;
};
Start start(Gleyd& gleyd, int then = SIGKILL) {
  const std::size_t before = gleyd.log().size();
  gleyd.start();
  Start out{.told = told(gleyd), .log = gleyd.log().substr(before)};
  gleyd.stop(then);
  return out;
}

Start start_from_readings(Gleyd& gleyd) {
  change(gleyd, "DELETE FROM derived");
  Start out = start(gleyd);
  CHECK(out.log.find("from the readings") != std::string::npos);
  return out;
}

bool went_on(const Start& start) {
  return start.log.find("going on from the fields' kept state") != std::string::npos;
}

/// A daemon that has run for a while on some months of readings, and is gone.
struct HasRun {
  Gleyd gleyd{two_fields()};

  HasRun() {
    gleyd.start();
    gleyd.stop();
    put(gleyd, hours_of(today() - days{150}, today() - days{1}));
    run();
  }
  void run() {
    change(gleyd, "DELETE FROM derived");
    gleyd.start();
    if (!eventually_keeps(gleyd)) throw std::runtime_error("nothing was kept:\n" + gleyd.log());
    gleyd.stop(SIGKILL);
  }
};

}  // namespace

TEST_CASE("a start from the kept state tells what a start from the readings tells") {
  HasRun farm;
  const Start again = start(farm.gleyd);
  CHECK(went_on(again));
  CHECK(again.told == start_from_readings(farm.gleyd).told);

  farm.run();
  // What came since: the last day, a late fall, and rain before all that was known.
  put(farm.gleyd, hours_of(today() - days{1}, today()));
  const Start later = start(farm.gleyd);
  CHECK(went_on(later));
  CHECK(later.told != again.told);
  put(farm.gleyd, {rain_reading("yard", today() - days{40} + minutes{90}, 17.0)});
  CHECK(went_on(start(farm.gleyd)));
  put(farm.gleyd, {rain_reading("yard", today() - days{155} + minutes{90}, 4.0)});
  const Start late = start(farm.gleyd);
  CHECK(went_on(late));
  CHECK(late.told == start_from_readings(farm.gleyd).told);
}

TEST_CASE("a damaged kept state is named in the log and not used") {
  HasRun farm;
  const std::string want = start(farm.gleyd).told;
  const std::string half = std::to_string(
      number(farm.gleyd, "SELECT length(body) / 2 FROM derived WHERE name = 'checkpoint'"));
  const std::string spoilt_byte =
      "CAST(substr(body, 1, " + half + ") || x'55aa' || substr(body, " + half + " + 3) AS BLOB)";
  for (const std::string& body :
       {"substr(body, 1, " + half + ")", spoilt_byte, std::string("x''")}) {
    INFO(body);
    farm.run();
    change(farm.gleyd, "UPDATE derived SET body = " + body + " WHERE name = 'checkpoint'");
    const Start damaged = start(farm.gleyd);
    CHECK(damaged.log.find("kept state is damaged") != std::string::npos);
    CHECK(damaged.told == want);
  }
}

TEST_CASE("another configuration, another model or other loaded days begin from the readings") {
  HasRun farm;
  farm.gleyd.farm.fields =
      field_text("top", {.soil = "clay loam", .drainage = "poor", .crop = "grass"}) +
      field_text("clay");
  farm.gleyd.configure();
  const Start changed = start(farm.gleyd);
  CHECK_FALSE(went_on(changed));
  CHECK(changed.told == start_from_readings(farm.gleyd).told);

  farm.run();
  change(farm.gleyd, "UPDATE derived SET model_version = '0+0' WHERE name = 'checkpoint'");
  CHECK_FALSE(went_on(start(farm.gleyd)));

  farm.run();
  const std::string before = start(farm.gleyd).told;
  farm.gleyd.load("date,rain_mm,tmin_c,tmax_c\n" + date_text(today() - days{160}) + ",12,4,9\n");
  const Start loaded = start(farm.gleyd);
  CHECK_FALSE(went_on(loaded));
  CHECK(loaded.told != before);
  CHECK(loaded.told == start_from_readings(farm.gleyd).told);
}

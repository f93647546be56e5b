#include "daemon/engine/roll_overs.hpp"

#include <catch2/catch.hpp>

#include "daemon/engine/day_keeper.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/unit/scratch_directory.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

const sys_days monday = 2024y / 5 / 13;

Reading rain_count(const std::string& station, Instant time, double value_mm) {
  return {.station = station,
          .quantity = Quantity::rain,
          .form = ReadingForm::counter,
          .source = "weather/" + station + "/rain",
          .time = time,
          .time_source = TimeSource::payload,
          .value = value_mm};
}

/// A gauge of 0.2 mm a tip.
void add_gauge(FarmConfig& farm, const std::string& station, std::optional<double> rolls_over_at) {
  StationConfig& own = farm.stations.emplace_back();
  own.id = station;
  ReadingMap& map = own.readings.emplace_back();
  map.topic = "weather/" + station + "/+";
  map.unit = "mm";
  map.form = ReadingForm::counter;
  map.step = 0.2;
  map.rolls_over_at = rolls_over_at;
  FieldConfig& field = farm.fields.emplace_back();
  field.id = "by-" + station;
  field.stations = {station};
  field.soil = SoilByClass{"clay loam"};
  field.crop = std::string("grass");
}

/// The yard's gauge rolls over at 1000 counts, 200 mm; of the brook's nothing is known.
FarmConfig two_gauges() {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "UTC";
  add_gauge(farm, "yard", 1000.0);
  add_gauge(farm, "brook", {});
  return farm;
}

struct Kept {
  ScratchDirectory directory;
  FarmConfig config = two_gauges();
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox{directory / "farm.db", Durability::process};
  FieldBook book{config};
  DayKeeper keeper{config, database, book};

  void put(const std::string& station, Instant time, double value_mm) {
    inbox.store({{{rain_count(station, time, value_mm), ReadingStatus::used}}, {}},
                monday + days{20});
  }

  /// Of Monday and Tuesday, which a keeper that starts now must make of the store too.
  [[nodiscard]] std::pair<double, double> two_days(std::size_t field) {
    keeper.catch_up();
    FieldBook fresh_book(config);
    const DayKeeper fresh(config, database, fresh_book);
    const auto kept = two_days_of(book, field);
    CHECK(kept == two_days_of(fresh_book, field));
    return kept;
  }

  static std::pair<double, double> two_days_of(FieldBook& book, std::size_t field) {
    book.close(monday + days{2});
    const auto& own = book.weather(field).days();
    REQUIRE(own.size() >= 2);
    return {own[0].weather.rain_mm.value_or(-1.0), own[1].weather.rain_mm.value_or(-1.0)};
  }
};

TEST_CASE("each of two gauges is counted by its own roll-over, over midnight too") {
  Kept kept;
  for (const char* station : {"yard", "brook"}) {
    kept.put(station, monday + 20h, 199.0);
    kept.put(station, monday + 23h, 199.2);
    kept.put(station, monday + 28h, 0.6);
  }
  // 0.8 mm up to the roll, 0.6 behind it; the other gauge may have been set to 0.
  const auto [yard_monday, yard_tuesday] = kept.two_days(0);
  CHECK(yard_monday == Approx(0.2).margin(1e-9));
  CHECK(yard_tuesday == Approx(1.4).margin(1e-9));
  const auto [brook_monday, brook_tuesday] = kept.two_days(1);
  CHECK(brook_monday == Approx(0.2).margin(1e-9));
  CHECK(brook_tuesday == Approx(0.6).margin(1e-9));
}

TEST_CASE("late counts around a roll-over part its rain between the days, to one sum") {
  Kept kept;
  kept.put("yard", monday + 19h, 199.0);
  kept.put("yard", monday + 20h, 199.0);
  kept.put("yard", monday + 28h, 0.6);
  CHECK(kept.two_days(0).second == Approx(1.6).margin(1e-9));
  kept.put("yard", monday + 23h, 199.8);
  CHECK(kept.two_days(0).first == Approx(0.8).margin(1e-9));
  CHECK(kept.two_days(0).second == Approx(0.8).margin(1e-9));
  kept.put("yard", monday + 24h, 0.2);  // exactly at midnight: of the day just ended
  CHECK(kept.two_days(0).first == Approx(1.2).margin(1e-9));
  CHECK(kept.two_days(0).second == Approx(0.4).margin(1e-9));
}

TEST_CASE("a roll-over belongs to the record it is told of, in the readings' unit") {
  FarmConfig farm;
  add_gauge(farm, "yard", 1000.0);
  ReadingMap& map = farm.stations.front().readings.front();
  map.senml_name = "north";
  map.step = 1.0;
  map.unit = "cm";
  Reading north = rain_count("yard", monday, 5.0);
  Reading south = north;
  north.source += "#north";
  south.source += "#south";
  Reading tips = north;
  tips.form = ReadingForm::interval;
  const auto found = [&](const Reading& reading) {
    return roll_overs_of(farm.stations.front(), {.of_day = {reading}, .before = {}});
  };
  CHECK(found(north) == RollOvers{{{"weather/yard/rain#north", Quantity::rain}, 10000.0}});
  CHECK(found(south).empty());
  CHECK(found(tips).empty());
}

}  // namespace
}  // namespace gley::daemon

#include "daemon/engine/weather/roll_overs.hpp"

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days monday = 2024y / 5 / 13;

Reading rain_count(const std::string& station, Instant time, double value_mm) {
  return rain_reading(station, time, value_mm, ReadingForm::counter);
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
  add_field(farm, "by-" + station, {station});
}

/// The yard's gauge rolls over at 1000 counts, 200 mm; of the brook's nothing is known.
FarmConfig two_gauges() {
  FarmConfig farm = farm_of_stations({});
  add_gauge(farm, "yard", 1000.0);
  add_gauge(farm, "brook", {});
  return farm;
}

struct TwoGauges {
  KeptFarm kept{two_gauges()};

  void put_count(const std::string& station, Instant time, double value_mm) {
    kept.store.put(rain_count(station, time, value_mm), monday + days{20});
  }
  /// Of Monday and Tuesday.
  void check_rain(std::size_t field, const std::vector<double>& want) {
    std::vector<double> got = kept.rain_by_day(monday + days{2}, field);
    got.resize(2);
    CHECK_THAT(got, Catch::Matchers::Approx(want).margin(1e-9));
  }
};

TEST_CASE("each of two gauges is counted by its own roll-over, over midnight too") {
  TwoGauges gauges;
  for (const char* station : {"yard", "brook"}) {
    gauges.put_count(station, monday + 20h, 199.0);
    gauges.put_count(station, monday + 23h, 199.2);
    gauges.put_count(station, monday + 28h, 0.6);
  }
  // 0.8 mm up to the roll, 0.6 behind it; the other gauge may have been set to 0.
  gauges.check_rain(0, {0.2, 1.4});
  gauges.check_rain(1, {0.2, 0.6});
}

TEST_CASE("late counts around a roll-over part its rain between the days, to one sum") {
  TwoGauges gauges;
  gauges.put_count("yard", monday + 19h, 199.0);
  gauges.put_count("yard", monday + 20h, 199.0);
  gauges.put_count("yard", monday + 28h, 0.6);
  gauges.check_rain(0, {0.0, 1.6});
  gauges.put_count("yard", monday + 23h, 199.8);
  gauges.check_rain(0, {0.8, 0.8});
  gauges.put_count("yard", monday + 24h, 0.2);  // exactly at midnight: of the day just ended
  gauges.check_rain(0, {1.2, 0.4});
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

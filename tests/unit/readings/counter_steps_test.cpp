#include "daemon/readings/counter_steps.hpp"

#include <catch2/catch.hpp>

#include "daemon/readings/day_record.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days day = 2024y / 5 / 13;

std::vector<Reading> counts(const std::vector<double>& values, minutes apart = 10min) {
  std::vector<Reading> readings;
  for (const double value : values)
    readings.push_back({.station = "yard",
                        .quantity = Quantity::rain,
                        .form = ReadingForm::counter,
                        .source = "weather/yard/rain",
                        .time = day + 60min + apart * static_cast<int>(readings.size()),
                        .time_source = TimeSource::payload,
                        .value = value});
  return readings;
}

Counted count(const std::vector<Reading>& readings, bool everything = false) {
  std::vector<const Reading*> pointers;
  for (const Reading& reading : readings) pointers.push_back(&reading);
  return count_up(pointers, nullptr, everything);
}

TEST_CASE("a storm of 40 mm/h and 15 mm at once are counted whole") {
  const Counted storm = count(counts({100.0, 106.6, 113.4, 120.0, 126.6, 133.4, 140.0}));
  CHECK(storm.amount.value() == Approx(40.0).epsilon(1e-12));
  CHECK(storm.jumps + storm.strays == 0);
  CHECK(count(counts({100.0, 115.0}, 1min)).amount == 15.0);
}

TEST_CASE("counts that come again after a radio gap of weeks catch up") {
  CHECK(count(counts({100.0, 240.0}, minutes(60 * 24 * 21))).amount == 140.0);
}

TEST_CASE("a rise beyond any rain is left out and counting goes on behind it") {
  const Counted jumped = count(counts({100.0, 100.5, 9100.0, 9100.5, 9101.0}));
  CHECK(jumped.amount == 1.5);
  CHECK(jumped.jumps == 1);
  CHECK(count(counts({100.0, 100.5, 9100.0, 9100.5}), true).amount == 9000.5);
}

TEST_CASE("a reset counts from 0, one that starts at a wild value counts nothing") {
  CHECK(count(counts({100.0, 101.0, 0.5, 2.0})).amount == 3.0);
  const Counted wild = count(counts({9000.0, 9001.0, 500.0, 500.5}));
  CHECK(wild.amount == 1.5);
  CHECK(wild.jumps == 1);
}

TEST_CASE("one wild count between two that go on is left out alone") {
  const Counted high = count(counts({100.0, 100.5, 9100.0, 101.0, 101.5}));
  CHECK(high.amount == 1.5);
  CHECK(high.strays == 1);
  const Counted low = count(counts({100.0, 100.5, 0.0, 101.0, 101.5}));
  CHECK(low.amount == 1.5);
  CHECK(low.strays == 1);
}

TEST_CASE("a day whose counter jumped is flagged, and names its source") {
  const FarmCalendar utc("UTC", minutes{0});
  const DayRecord record =
      day_record({.of_day = counts({100.0, 100.5, 9100.0, 9100.5}), .before = {}}, day, utc);
  CHECK(record.weather.rain_mm == 1.0);
  CHECK(record.flags.has(model::DayFlag::rain_doubtful));
  REQUIRE(record.doubts.list().size() == 1);
  CHECK(record.doubts.list()[0].kind == DoubtKind::counter_jump);
  const auto doubts = doubts_of({.of_day = counts({100.0, 100.5, 9100.0, 9100.5}), .before = {}});
  REQUIRE(doubts.size() == 1);
  CHECK(in_words(doubts[0]) == "rain counter jump: 1 reading on weather/yard/rain; not used");
}

}  // namespace
}  // namespace gley::daemon

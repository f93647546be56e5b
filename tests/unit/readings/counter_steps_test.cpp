#include "daemon/readings/counter_steps.hpp"

#include <catch2/catch.hpp>

#include "daemon/readings/day_record.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days day = 2024y / 5 / 13;

std::vector<Reading> counts(const std::vector<double>& values, minutes apart = 10min) {
  std::vector<Reading> readings;
  readings.reserve(values.size());
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

Counted count(const std::vector<Reading>& readings, const CounterRules& rules = {}) {
  std::vector<const Reading*> pointers;
  pointers.reserve(readings.size());
  for (const Reading& reading : readings) pointers.push_back(&reading);
  return count_up(pointers, nullptr, rules);
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
  CHECK(count(counts({100.0, 100.5, 9100.0, 9100.5}), {.everything_counts = true}).amount ==
        9000.5);
}

TEST_CASE("a reset counts from 0, one that starts at a wild value counts nothing") {
  CHECK(count(counts({100.0, 101.0, 0.5, 2.0})).amount == 3.0);
  const Counted wild = count(counts({9000.0, 9001.0, 500.0, 500.5}));
  CHECK(wild.amount == 1.5);
  CHECK(wild.jumps == 1);
}

// 16 bits of 0.2 mm: 65536 x 0.2 = 13107.2 mm.
const CounterRules sixteen_bits{.rolls_over_at = 13107.2};

TEST_CASE("a roll-over is counted through where it is known") {
  // 0.6 mm up to the roll, 0.4 mm behind it.
  const std::vector<double> rolling{13106.4, 13106.6, 0.4, 0.8};
  CHECK(count(counts(rolling), sixteen_bits).amount.value() ==
        Approx(0.2 + 1.0 + 0.4).margin(1e-9));
  CHECK(count(counts(rolling)).amount.value() == Approx(0.2 + 0.4 + 0.4).margin(1e-9));
  // Exactly onto 0.
  CHECK(count(counts({13107.0, 0.0, 0.2}), sixteen_bits).amount.value() ==
        Approx(0.4).margin(1e-9));
}

TEST_CASE("a fall that would be too much rain for a roll-over is a reset") {
  CHECK(count(counts({5000.0, 5000.2, 0.0, 0.4}), sixteen_bits).amount.value() ==
        Approx(0.6).margin(1e-9));
  // A count above where it rolls over cannot have rolled.
  CHECK(count(counts({20000.0, 20000.2, 0.4}), sixteen_bits).amount.value() ==
        Approx(0.6).margin(1e-9));
  // After three weeks of silence 90 mm is no more than a wet month.
  CHECK(count(counts({13067.2, 50.0}, minutes(60 * 24 * 21)), sixteen_bits).amount.value() ==
        Approx(90.0).margin(1e-9));
}

TEST_CASE("a jump at the top of a counter that rolls over is left out all the same") {
  const Counted down = count(counts({13106.4, 13106.6, 5000.0, 5000.2}), sixteen_bits);
  CHECK(down.amount.value() == Approx(0.4).margin(1e-9));
  CHECK(down.jumps == 1);
  // The last count of before the roll, heard once more behind it.
  const Counted again = count(counts({13106.6, 0.4, 13106.6, 0.8}), sixteen_bits);
  CHECK(again.amount.value() == Approx(1.4).margin(1e-9));
  CHECK(again.strays == 1);
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

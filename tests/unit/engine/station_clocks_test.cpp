#include "daemon/engine/weather/station_clocks.hpp"

#include <catch2/catch.hpp>

namespace gley::daemon {
namespace {

using namespace std::chrono;

const Instant noon{sys_days{2026y / 3 / 1} + 12h};

/// What a station sends every 20 minutes for 5 hours up to noon, its clock off by so much.
StationClocks after_a_morning(milliseconds behind, milliseconds jitter = 0ms) {
  StationClocks clocks;
  for (int i = 15; i >= 0; --i) {
    StoredReading row;
    row.received = noon - i * 20min;
    row.reading.station = "yard";
    row.reading.time = row.received - behind - (i % 2) * jitter;
    clocks.note(row);
  }
  return clocks;
}

TEST_CASE("a clock an hour or a day off is noticed, either way") {
  CHECK(after_a_morning(60min).behind("yard", noon) == 60min);
  CHECK(after_a_morning(-60min).behind("yard", noon) == -60min);
  CHECK(after_a_morning(24h + 2min).behind("yard", noon) == 24h + 2min);
}

TEST_CASE("a right clock, slow delivery and times that come unevenly are not") {
  CHECK_FALSE(after_a_morning(5s).behind("yard", noon));
  CHECK_FALSE(after_a_morning(20min).behind("yard", noon));
  CHECK_FALSE(after_a_morning(60min, 30min).behind("yard", noon));
  CHECK_FALSE(after_a_morning(60min).behind("brook", noon));
  CHECK_FALSE(after_a_morning(60min).behind("yard", noon + 48h));
}

TEST_CASE("readings of weeks that come at once after a radio gap do not tell of a clock") {
  StationClocks clocks = after_a_morning(2s);
  for (int i = 0; i < 500; ++i) {
    StoredReading row;
    row.received = noon + 1s;
    row.reading.station = "yard";
    row.reading.time = noon - hours(i);
    clocks.note(row);
  }
  CHECK_FALSE(clocks.behind("yard", noon + 1min));
}

TEST_CASE("a clock that was set right is no longer named") {
  StationClocks clocks = after_a_morning(60min);
  for (int i = 1; i <= 3; ++i) {
    StoredReading row;
    row.received = noon + i * 20min;
    row.reading.station = "yard";
    row.reading.time = row.received;
    clocks.note(row);
  }
  CHECK_FALSE(clocks.behind("yard", noon + 61min));
}

}  // namespace
}  // namespace gley::daemon

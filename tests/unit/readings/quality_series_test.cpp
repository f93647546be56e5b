// Sequences as stations send them. Limits: daemon/readings/quality_limits.hpp.
#include "daemon/readings/quality_series.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "daemon/readings/day_record.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using enum Quantity;

const sys_days day = 2024y / 5 / 13;

Reading instant(Quantity quantity, milliseconds after, double value) {
  return {.station = "yard",
          .quantity = quantity,
          .form = ReadingForm::instant,
          .source = "weather/yard/" + std::string(to_word(quantity)),
          .time = day + after,
          .time_source = TimeSource::payload,
          .value = value};
}

/// Air by the ten minutes: 6 to 16 degC, coldest at 4 h, rounded as sensors do.
std::vector<Reading> a_day_of_air(double decimals = 10.0) {
  std::vector<Reading> readings;
  for (int minute = 0; minute < 1440; minute += 10) {
    const double warmth = 11.0 - 5.0 * std::cos(2.0 * M_PI * (minute - 240) / 1440.0);
    readings.push_back(
        instant(temperature, minutes(minute), std::round(warmth * decimals) / decimals));
  }
  return readings;
}

std::vector<Doubt> doubts_of(std::vector<Reading> readings,
                             const AcceptedQuantities& accepted = {}) {
  return take_out_doubtful(readings, accepted);
}

std::vector<Reading> by_the_hour(Quantity quantity, int count, double value) {
  std::vector<Reading> readings;
  for (int hour = 0; hour < count; ++hour)
    readings.push_back(instant(quantity, hours(hour), value));
  return readings;
}

TEST_CASE("a sound day of air is not doubted, in tenths or in whole degrees") {
  CHECK(doubts_of(a_day_of_air()).empty());
  CHECK(doubts_of(a_day_of_air(1.0)).empty());
}

TEST_CASE("a spike is left out, and the values around it stay") {
  std::vector<Reading> readings = a_day_of_air();
  readings[60].value = 55.0;
  readings[90].value = -40.0;
  readings[91].value = -40.0;
  const auto doubts = take_out_doubtful(readings, {});
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].kind == DoubtKind::spike);
  CHECK(doubts[0].readings == 3);
  CHECK(doubts[0].source == "weather/yard/temperature");
  CHECK(readings.size() == 141);
  for (const Reading& reading : readings) CHECK(std::fabs(reading.value - 11.0) <= 5.0);
}

TEST_CASE("a cold front that stays is weather") {
  std::vector<Reading> readings = a_day_of_air();
  for (std::size_t i = 84; i < readings.size(); ++i) readings[i].value -= 10.0;
  CHECK(doubts_of(readings).empty());
}

TEST_CASE("a last value far off is doubted until the next one agrees") {
  std::vector<Reading> readings = a_day_of_air();
  readings.resize(70);
  readings.push_back(instant(temperature, 700min, 40.0));
  CHECK(doubts_of(readings).size() == 1);
  for (int more = 1; more <= 7; ++more)
    readings.push_back(instant(temperature, minutes(700 + 10 * more), 39.5));
  CHECK(doubts_of(readings).empty());
}

TEST_CASE("values hours apart are not held against each other") {
  CHECK(doubts_of({instant(temperature, 5h, -3.0), instant(temperature, 14h, 21.0)}).empty());
  CHECK(doubts_of({instant(temperature, 5h, 3.0), instant(temperature, 6h, 30.0),
                   instant(temperature, 7h, 3.0)})
            .empty());
}

TEST_CASE("a value that stands still all day is stuck") {
  for (const Quantity quantity : {temperature, humidity, wind, dew_point}) {
    std::vector<Reading> readings = by_the_hour(quantity, 24, 7.3);
    const auto doubts = take_out_doubtful(readings, {});
    REQUIRE(doubts.size() == 1);
    CHECK(doubts[0].kind == DoubtKind::stuck);
    CHECK(doubts[0].readings == 24);
    CHECK(readings.empty());
  }
}

TEST_CASE("fog, calm, night, few readings and part of a day may stand still") {
  CHECK(doubts_of(by_the_hour(humidity, 24, 98.0)).empty());
  CHECK(doubts_of(by_the_hour(wind, 24, 0.0)).empty());
  CHECK(doubts_of(by_the_hour(radiation, 24, 0.0)).empty());
  CHECK(doubts_of(by_the_hour(temperature, 18, 7.3)).empty());
  std::vector<Reading> few;
  for (int hour = 0; hour < 24; hour += 3) few.push_back(instant(temperature, hours(hour), 7.3));
  CHECK(doubts_of(few).empty());
}

TEST_CASE("what a person accepted is named and stays") {
  std::vector<Reading> readings = by_the_hour(temperature, 24, 7.3);
  const auto doubts = take_out_doubtful(readings, {temperature});
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].accepted);
  CHECK(readings.size() == 24);
}

TEST_CASE("a dew point above the air's temperature is left out, one sensor's error above is not") {
  std::vector<Reading> readings{instant(temperature, 6h, 5.0),       instant(dew_point, 6h, 5.4),
                                instant(temperature, 7h, 6.0),       instant(dew_point, 7h, 9.0),
                                instant(temperature, 8h, 8.0),       instant(dew_point, 8h, 4.0),
                                instant(dew_point, 8h + 40min, 12.0)};
  const auto doubts = take_out_doubtful(readings, {});
  REQUIRE(doubts.size() == 1);
  CHECK(doubts[0].kind == DoubtKind::above_air_temperature);
  CHECK(doubts[0].readings == 1);
}

TEST_CASE("a day whose thermometer is stuck has no temperatures and says so") {
  const FarmCalendar utc("UTC", minutes{0});
  std::vector<Reading> readings = by_the_hour(temperature, 24, 7.3);
  const DayRecord record = day_record({.of_day = readings, .before = {}}, day, utc);
  CHECK_FALSE(record.weather.tmin_c);
  CHECK(record.flags.has(model::DayFlag::temperature_doubtful));
  CHECK(record.doubts.list().size() == 1);
  const DayRecord accepted =
      day_record({.of_day = readings, .before = {}, .accepted = {temperature}}, day, utc);
  CHECK(accepted.weather.tmin_c == 7.3);
  CHECK_FALSE(accepted.flags.has(model::DayFlag::temperature_doubtful));
}

}  // namespace
}  // namespace gley::daemon

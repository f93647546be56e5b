#include "daemon/engine/weather/forecast_record.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/store/farm_store.hpp"

using namespace gley::daemon;
using gley::model::DailyWeather;
using std::chrono::days;

namespace {

const std::chrono::sys_days monday = std::chrono::year{2026} / 5 / 4;

ForecastDay said(int issued, int date, std::vector<double> members_mm) {
  double sum = 0.0;
  for (const double own : members_mm) sum += own;
  return {.issued = monday + days{issued},
          .date = monday + days{date},
          .members = static_cast<std::int64_t>(members_mm.size()),
          .rain_mm = sum / static_cast<double>(members_mm.size()),
          .tmean_c = 10.0,
          .rain_members_mm = std::move(members_mm)};
}

std::vector<gley::model::StationDay> weather(const std::vector<std::optional<double>>& rain_mm) {
  gley::model::StationDays whole({.latitude_deg = 53.4, .elevation_m = 71.0});
  std::vector<gley::model::StationDay> out;
  for (std::size_t d = 0; d < rain_mm.size(); ++d)
    out.push_back(whole.next(monday + days{static_cast<int>(d)},
                             {.rain_mm = rain_mm[d], .tmin_c = 6.0, .tmax_c = 12.0}));
  return out;
}

}  // namespace

TEST_CASE("forecasts are paired with the days that came, by days ahead") {
  const ForecastRecord record = forecast_record(
      {said(0, 1, {0.0, 0.0, 3.0, 4.0, 5.0}), said(0, 2, {0.0, 0.0, 0.0}), said(1, 2, {2.0})},
      weather({1.0, 6.0, 2.5}));
  REQUIRE(record.scores.size() == 2);
  CHECK(record.scores[0].pairs == 2);
  CHECK(record.scores[0].right == 2);  // 4/7 and 2/3 of rain, and it rained
  CHECK(record.scores[1].pairs == 1);
  CHECK(record.scores[1].right == 0);
  CHECK(record.scores[1].crps_mm == 2.5);
}

TEST_CASE("only forecasts of one member teach how to spread one") {
  const ForecastRecord record =
      forecast_record({said(0, 1, {3.0, 4.0}), said(1, 2, {2.0})}, weather({1.0, 6.0, 2.5}));
  REQUIRE(record.errors.size() == 2);
  CHECK(record.errors[0].rain.empty());
  REQUIRE(record.errors[1].rain.size() == 1);
  CHECK(record.errors[1].rain[0].forecast_mm == 2.0);
  CHECK(record.errors[1].rain[0].observed_mm == 2.5);
  REQUIRE(record.errors[1].warmer_c.size() == 1);
  CHECK(record.errors[1].warmer_c[0] == -1.0);
}

TEST_CASE("days without measured rain, to come or today give no pair") {
  const ForecastRecord record = forecast_record(
      {said(0, 1, {1.0}), said(0, 5, {1.0}), said(2, 2, {1.0})}, weather({1.0, std::nullopt, 2.0}));
  CHECK(record.scores.empty());
}

TEST_CASE("what a day's first forecast said stays and is read back whole") {
  FarmStore farm;
  ForecastDayStore store(farm.database);
  store.put({said(0, 1, {0.1, 2.25, 0.0}), said(0, 2, {1.0})});
  store.put({said(0, 1, {9.0})});
  const auto days_said = store.since(monday);
  REQUIRE(days_said.size() == 2);
  CHECK(days_said[0].rain_members_mm == std::vector<double>{0.1, 2.25, 0.0});
  CHECK(days_said[0].members == 3);
  CHECK(days_said[0].lead_days() == 1);
  CHECK(days_said[0].tmean_c == 10.0);
  CHECK(store.since(monday + days{2}).size() == 1);
}

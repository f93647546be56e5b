// Limits: daemon/readings/quality_limits.hpp.
#include "daemon/readings/station_judge.hpp"

#include <catch2/catch.hpp>
#include <cmath>

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days first = 2024y / 1 / 1;

DayRecord wet(double rain_mm) {
  return {.weather = {.rain_mm = rain_mm}, .flags = {}, .complete = true, .loaded = false};
}

/// Three stations within 25 km of each other, and one a long way off.
struct Land {
  StationRecord yard;
  StationRecord brook;
  StationRecord hill;
  StationRecord island;
  StationJudge judge{{{"yard", {.longitude = -6.2, .latitude = 53.4}, 70.0, &yard},
                      {"brook", {.longitude = -6.25, .latitude = 53.45}, 20.0, &brook},
                      {"hill", {.longitude = -6.3, .latitude = 53.5}, 270.0, &hill},
                      {"island", {.longitude = -10.2, .latitude = 52.0}, 20.0, &island}}};

  [[nodiscard]] std::vector<int> doubted(const std::string& station, DoubtKind kind) const {
    std::vector<int> days_since_first;
    for (const auto& [date, doubts] : judge.doubts(station))
      for (const Doubt& doubt : doubts)
        if (doubt.kind == kind)
          days_since_first.push_back(static_cast<int>((date - first).count()));
    return days_since_first;
  }
  void rain(int day, double at_yard, double at_brook) {
    yard[first + days{day}] = wet(at_yard);
    brook[first + days{day}] = wet(at_brook);
    judge.changed(first + days{day});
  }
};

using Days = std::vector<int>;

TEST_CASE("a gauge at 0 through three wet days next door is blocked from the first of them on") {
  Land land;
  const double rain[] = {0.0, 0.0, 8.0, 0.4, 9.0, 0.0, 1.0, 7.0, 0.0, 4.0};
  for (int day = 0; day < 7; ++day) land.rain(day, 0.0, rain[day]);
  CHECK(land.judge.judge().empty());  // two wet days may be a shower that passed by
  for (int day = 7; day < 9; ++day) land.rain(day, 0.0, rain[day]);
  land.rain(9, 4.2, rain[9]);  // cleared
  const auto changed = land.judge.judge();
  CHECK(land.doubted("yard", DoubtKind::blocked) == Days{2, 3, 4, 5, 6, 7, 8});
  CHECK(changed == std::map<std::string, sys_days>{{"yard", first + days{2}}});
  CHECK(land.doubted("brook", DoubtKind::blocked).empty());
}

TEST_CASE("a dry spell is dry everywhere, and a far station tells nothing") {
  Land land;
  for (int day = 0; day < 30; ++day) {
    land.rain(day, 0.0, 0.0);
    land.island[first + days{day}] = wet(10.0);
  }
  (void)land.judge.judge();
  CHECK(land.judge.doubts("yard").empty());
}

/// Rain was forecast for days on which the yard's gauge counted none.
RainForeseen foreseen(const std::vector<int>& on, double rain_mm) {
  RainForeseen rain;
  for (const int day : on) rain[first + days{day}] = rain_mm;
  return rain;
}

TEST_CASE("a forecast speaks against a gauge only where no gauge near it tells") {
  Land alone;
  Land beside;
  for (int day = 0; day < 10; ++day) {
    alone.yard[first + days{day}] = wet(0.0);
    alone.judge.changed(first + days{day});
    beside.rain(day, 0.0, 0.0);
  }
  for (Land* land : {&alone, &beside}) {
    land->judge.foresee(foreseen({1, 3, 4, 8}, 8.0));
    (void)land->judge.judge();
  }
  CHECK(alone.doubted("yard", DoubtKind::blocked) == Days{1, 2, 3, 4, 5, 6, 7, 8, 9});
  CHECK(beside.judge.doubts("yard").empty());
  alone.judge.foresee(foreseen({1, 3, 4}, 20.0));  // three days only
  CHECK(alone.judge.judge() == std::map<std::string, sys_days>{{"yard", first + days{1}}});
  CHECK(alone.judge.doubts("yard").empty());
  alone.judge.foresee(foreseen({1, 3, 4, 8}, 7.0));  // 28 mm only
  (void)alone.judge.judge();
  CHECK(alone.judge.doubts("yard").empty());
}

TEST_CASE("days judged one by one, late and at once give the same findings") {
  const auto rain = [](int day) { return day % 5 < 2 ? 3.0 + day % 7 : 0.0; };
  Land at_once;
  for (int day = 0; day < 60; ++day)
    at_once.rain(day, day > 20 && day < 45 ? 0.0 : rain(day), rain(day));
  (void)at_once.judge.judge();
  Land one_by_one;
  for (int day = 0; day < 60; ++day) {
    one_by_one.rain(day, day > 20 && day < 45 ? 0.0 : rain(day), rain(day));
    (void)one_by_one.judge.judge();
  }
  Land backwards;
  for (int day = 59; day >= 0; --day) {
    backwards.rain(day, day > 20 && day < 45 ? 0.0 : rain(day), rain(day));
    (void)backwards.judge.judge();
  }
  CHECK_FALSE(at_once.judge.doubts("yard").empty());
  CHECK(at_once.judge.doubts("yard") == one_by_one.judge.doubts("yard"));
  CHECK(at_once.judge.doubts("yard") == backwards.judge.doubts("yard"));
}

TEST_CASE("what a person accepted is named and used") {
  Land land;
  for (int day = 0; day < 10; ++day) land.rain(day, 0.0, 9.0);
  land.judge.accept({{"yard", Quantity::rain, first, first + days{4}}});
  (void)land.judge.judge();
  const DoubtsByDay& doubts = land.judge.doubts("yard");
  CHECK(doubts.at(first + days{4}).front().accepted);
  CHECK_FALSE(doubts.at(first + days{5}).front().accepted);
  land.judge.accept({});
  CHECK(land.judge.judge().at("yard") == first);
}

TEST_CASE("humidity at 100 % is doubted from three days in a row on") {
  Land land;
  for (const int day : {0, 1, 3, 4, 5}) {
    land.yard[first + days{day}].weather.rh_mean_pct = 100.0;
    land.judge.changed(first + days{day});
    (void)land.judge.judge();
  }
  CHECK(land.doubted("yard", DoubtKind::saturated) == Days{3, 4, 5});
}

DayRecord air(double tmin_c, double tmax_c) {
  DayRecord record;
  record.weather.tmin_c = tmin_c;
  record.weather.tmax_c = tmax_c;
  return record;
}

TEST_CASE("of three thermometers the one far from the two others is doubted, height allowed for") {
  Land land;
  // 200 to 250 m higher: 1.3 to 1.6 degC cooler by 6.5 degC/km.
  land.yard[first] = air(2.0, 10.0);
  land.brook[first] = air(2.3, 10.4);
  land.hill[first] = air(12.5, 20.5);
  land.yard[first + days{1}] = air(2.0, 10.0);
  land.brook[first + days{1}] = air(2.3, 10.4);
  land.hill[first + days{1}] = air(-6.0, 0.0);
  land.judge.changed(first);
  (void)land.judge.judge();
  CHECK(land.doubted("hill", DoubtKind::apart) == Days{0});
  CHECK(land.doubted("yard", DoubtKind::apart).empty());
}

TEST_CASE("temperature that its month never had in years before is out of season") {
  Land land;
  for (int day = 0; day < 3 * 365; ++day) {
    const double warmth = 9.0 - 6.0 * std::cos(2.0 * M_PI * (day - 20) / 365.25) + day % 7 - 3;
    land.yard[first + days{day}] = air(warmth - 3.0, warmth + 4.0);
  }
  land.yard[first + days{400}] = air(25.0, 35.0);   // February 2025, one year before: no norm yet
  land.yard[first + days{1000}] = air(40.0, 52.0);  // September 2026, as if degF
  land.judge.changed(first);
  (void)land.judge.judge();
  CHECK(land.doubted("yard", DoubtKind::out_of_season) == Days{1000});
}

}  // namespace
}  // namespace gley::daemon

#include "daemon/engine/weather/weather_choice.hpp"

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using model::DayFlag;

const sys_days monday = 2024y / 5 / 13;

/// Two stations, the yard trusted before the brook, whose wind is measured at 10 m.
struct Two {
  StationRecord yard;
  StationRecord brook;
  DoubtsByDay yard_doubts;
  std::vector<WeatherSource> sources{
      {"yard", {.latitude_deg = 53.4}, &yard, &yard_doubts},
      {"brook", {.latitude_deg = 53.4, .wind_height_m = 10.0}, &brook, nullptr}};

  Two() {
    yard[monday].weather = {.rain_mm = 3.0, .tmin_c = 4.0, .tmax_c = 12.0};
    brook[monday].weather = {
        .rain_mm = 5.0, .tmin_c = 5.0, .tmax_c = 11.0, .rh_mean_pct = 80.0, .wind_m_s = 3.2};
  }
  [[nodiscard]] WeatherChoice chosen(DayPart part = DayPart::whole) const {
    return choose_weather(sources, monday, part);
  }
};

TEST_CASE("what the first station lacks of the air is borrowed and flagged, wind for its height") {
  const WeatherChoice chosen = Two().chosen();
  CHECK(chosen.weather.rain_mm == 3.0);
  CHECK(chosen.weather.tmin_c == 4.0);
  CHECK(chosen.weather.rh_mean_pct == 80.0);
  // FAO-56 Example 14 (p. 56): 3.2 m/s at 10 m is 2.4 m/s at 2 m.
  CHECK(chosen.weather.wind_m_s.value() == Approx(2.4).margin(0.05));
  CHECK(to_words(chosen.flags) == "humidity_borrowed;wind_borrowed");
}

TEST_CASE("rain of a doubted gauge is taken from the next station, both said") {
  Two two;
  two.yard_doubts[monday] = {{.quantity = Quantity::rain, .kind = DoubtKind::blocked}};
  CHECK(two.chosen().weather.rain_mm == 5.0);
  CHECK(two.chosen().flags.has(DayFlag::rain_doubtful));
  CHECK(two.chosen().flags.has(DayFlag::rain_borrowed));
  two.yard_doubts[monday].front().accepted = true;
  CHECK(two.chosen().weather.rain_mm == 3.0);
  CHECK_FALSE(two.chosen().flags.has(DayFlag::rain_doubtful));
}

TEST_CASE("a doubted gauge without another leaves the rain missing") {
  Two two;
  two.brook.clear();
  two.yard_doubts[monday] = {{.quantity = Quantity::rain, .kind = DoubtKind::blocked}};
  CHECK_FALSE(two.chosen().weather.rain_mm);
  CHECK(two.chosen().flags.has(DayFlag::rain_doubtful));
}

TEST_CASE("rain heard in part gives way to another's whole rain, once the day has ended") {
  Two two;
  two.yard[monday].flags.set(DayFlag::rain_partial);
  CHECK(two.chosen().weather.rain_mm == 5.0);
  CHECK(two.chosen(DayPart::so_far).weather.rain_mm == 3.0);
  two.brook[monday].flags.set(DayFlag::rain_partial);
  CHECK(two.chosen().weather.rain_mm == 3.0);
  CHECK(two.chosen().flags.has(DayFlag::rain_partial));
}

TEST_CASE("a thermometer out of season gives way to the next station's air") {
  Two two;
  two.yard_doubts[monday] = {{.quantity = Quantity::temperature, .kind = DoubtKind::out_of_season}};
  const WeatherChoice chosen = two.chosen();
  CHECK(chosen.weather.tmin_c == 5.0);
  CHECK(chosen.weather.rain_mm == 3.0);
  CHECK(chosen.flags.has(DayFlag::temperature_doubtful));
  CHECK(chosen.flags.has(DayFlag::temperature_borrowed));
}

void put(FieldBook& book, const std::string& station, int day, double rain_mm) {
  DayRecord record;
  record.weather = {.rain_mm = rain_mm, .tmin_c = 4.0, .tmax_c = 12.0};
  book.put(station, monday + days{day}, record);
}

TEST_CASE("days behind are stepped again when a gauge turns out to be blocked") {
  FarmConfig config = farm_of_stations({"yard", "brook"});
  add_field(config, "top", {"yard", "brook"});
  FieldBook day_by_day(config);
  FieldBook at_once(config);
  const double rain[] = {0.0, 9.0, 9.0, 0.0, 9.0, 0.0};
  for (int day = 0; day < 6; ++day) {
    for (FieldBook* book : {&day_by_day, &at_once}) {
      put(*book, "yard", day, 0.0);
      put(*book, "brook", day, rain[day]);
    }
    day_by_day.close(monday + days{day});
  }
  at_once.close(monday + days{5});
  CHECK(day_by_day.weather(0).days()[1].weather.rain_mm == 9.0);
  CHECK(day_by_day.weather(0).days()[1].flags.has(DayFlag::rain_borrowed));
  CHECK(day_by_day.days_csv(0, {}) == at_once.days_csv(0, {}));

  FieldBook restored(config);
  const auto kept = day_by_day.checkpoint();
  REQUIRE(kept);
  restored.restore(*kept);
  CHECK(restored.days_csv(0, {}) == at_once.days_csv(0, {}));

  at_once.accept({{"yard", Quantity::rain, monday, monday + days{9}}});
  at_once.close(monday + days{5});
  CHECK(at_once.weather(0).days()[1].weather.rain_mm == 0.0);
}

}  // namespace
}  // namespace gley::daemon

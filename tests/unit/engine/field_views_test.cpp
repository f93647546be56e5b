#include "daemon/engine/view/field_views.hpp"

#include "daemon/board/documents/topic_json.hpp"
#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days monday = 2024y / 5 / 13;

FarmConfig two_fields() {
  FarmConfig farm = farm_of_stations({"yard", "hill"});
  add_field(farm, "top", {"yard"});
  add_field(farm, "far", {"hill"});
  MachineConfig& drill = farm.machines.emplace_back();
  drill.id = "drill";
  drill.wheel_load_t = 2.6;
  drill.tyre_pressure_bar = 1.0;
  return farm;
}

struct Watched {
  FarmStore store;
  FarmConfig config = two_fields();
  FarmState state{config, store.database};
  FieldViews views;
  std::vector<FieldView> shown;

  void rain(const std::string& station, Instant time, double amount_mm) {
    store.put(rain_reading(station, time, amount_mm), time);
  }
  /// Three days by the hour up to Thursday, dry but for one hour.
  void three_days(const std::string& station, int wet_hour, double wet_mm) {
    for (int hour = 0; hour <= 72; ++hour) {
      const Instant time = monday + hours{hour};
      rain(station, time, hour == wet_hour ? wet_mm : 0.0);
      store.put(air_reading(station, time, 8.0 + hour % 24 / 4.0), time);
    }
  }

  /// Which fields were made anew; all of them are checked against a look that keeps nothing.
  std::vector<std::string> look(Instant now) {
    state.catch_up();
    state.look(now);
    std::vector<std::string> anew;
    for (const ShownAnew& one : views.look(state, now, nullptr, shown))
      anew.push_back(shown[one.field].id);
    FarmState fresh(config, store.database);
    fresh.look(now);
    const BoardSnapshot want = board_of(fresh, {}, now, nullptr);
    for (std::size_t i = 0; i < want.fields.size(); ++i)
      CHECK(field_json(shown[i], now) == field_json(want.fields[i], now));
    return anew;
  }
};

using Ids = std::vector<std::string>;

TEST_CASE("a reading shows only the fields of its station anew, and they show what all would") {
  Watched watched;
  for (const char* station : {"yard", "hill"}) watched.three_days(station, 60, 6.0);
  const Instant now = monday + hours{72} + minutes{5};
  CHECK(watched.look(now) == Ids{"top", "far"});
  CHECK(watched.look(now + seconds{20}).empty());

  watched.rain("hill", now + minutes{1}, 9.0);
  CHECK(watched.look(now + minutes{1}) == Ids{"far"});
  watched.rain("yard", monday + hours{30} + minutes{1}, 14.0);  // late
  CHECK(watched.look(now + minutes{2}) == Ids{"top"});
  // A reading a few minutes ahead of the clock counts in the last 24 hours when its time has come.
  watched.rain("yard", now + minutes{8}, 12.0);
  for (const int minute : {3, 7, 8, 9}) watched.look(now + minutes{minute});
}

TEST_CASE("time alone changes what is shown: rain grows old, a station falls silent, a day ends") {
  Watched watched;
  for (const char* station : {"yard", "hill"}) watched.three_days(station, 50, 12.0);
  for (int hour = 72; hour <= 102; ++hour) {
    INFO("hour " << hour);
    watched.look(monday + hours{hour} + minutes{1});
  }
  // 50 h + 24 h: the rain has left, before the stations fall silent after 6 h.
  Watched again;
  again.three_days("yard", 50, 12.0);
  again.look(monday + hours{73} + minutes{59});
  CHECK(again.look(monday + hours{74}) == Ids{"top"});
}

}  // namespace
}  // namespace gley::daemon

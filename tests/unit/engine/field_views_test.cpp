#include "daemon/engine/field_views.hpp"

#include <catch2/catch.hpp>

#include "daemon/board/topic_json.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/unit/scratch_directory.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

const sys_days monday = 2024y / 5 / 13;

FarmConfig farm() {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "UTC";
  for (const char* id : {"yard", "hill"}) farm.stations.emplace_back().id = id;
  for (const char* id : {"top", "far"}) {
    FieldConfig& field = farm.fields.emplace_back();
    field.id = id;
    field.stations = {id == std::string("top") ? "yard" : "hill"};
    field.soil = SoilByClass{"clay loam"};
    field.crop = std::string("grass");
  }
  MachineConfig& drill = farm.machines.emplace_back();
  drill.id = "drill";
  drill.wheel_load_t = 2.6;
  drill.tyre_pressure_bar = 1.0;
  return farm;
}

struct Watched {
  ScratchDirectory directory;
  FarmConfig config = farm();
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox{directory / "farm.db", Durability::process};
  FarmState state{config, database};
  FieldViews views;
  std::vector<FieldView> shown;

  void put(const std::string& station, Quantity quantity, Instant time, double value) {
    const bool rain = quantity == Quantity::rain;
    const Reading reading{.station = station,
                          .quantity = quantity,
                          .form = rain ? ReadingForm::interval : ReadingForm::instant,
                          .source = "weather/" + station,
                          .time = time,
                          .time_source = TimeSource::payload,
                          .value = value};
    inbox.store({{{reading, ReadingStatus::used}}, {}}, time);
  }

  /// Which fields were made anew; all of them are checked against a look that keeps nothing.
  std::vector<std::string> look(Instant now) {
    state.catch_up();
    state.look(now);
    std::vector<std::string> anew;
    for (const ShownAnew& one : views.look(state, now, nullptr, shown))
      anew.push_back(shown[one.field].id);
    FarmState fresh(config, database);
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
  for (const char* station : {"yard", "hill"})
    for (int hour = 0; hour <= 72; ++hour) {
      const Instant time = monday + hours{hour};
      watched.put(station, Quantity::rain, time, hour == 60 ? 6.0 : 0.0);
      watched.put(station, Quantity::temperature, time, 8.0 + hour % 24 / 4.0);
    }
  const Instant now = monday + hours{72} + minutes{5};
  CHECK(watched.look(now) == Ids{"top", "far"});
  CHECK(watched.look(now + seconds{20}).empty());

  watched.put("hill", Quantity::rain, now + minutes{1}, 9.0);
  CHECK(watched.look(now + minutes{1}) == Ids{"far"});
  watched.put("yard", Quantity::rain, monday + hours{30} + minutes{1}, 14.0);  // late
  CHECK(watched.look(now + minutes{2}) == Ids{"top"});
  // A reading a few minutes ahead of the clock counts in the last 24 hours when its time has come.
  watched.put("yard", Quantity::rain, now + minutes{8}, 12.0);
  for (const int minute : {3, 7, 8, 9}) watched.look(now + minutes{minute});
}

TEST_CASE("time alone changes what is shown: rain grows old, a station falls silent, a day ends") {
  Watched watched;
  for (const char* station : {"yard", "hill"})
    for (int hour = 0; hour <= 72; ++hour) {
      const Instant time = monday + hours{hour};
      watched.put(station, Quantity::rain, time, hour == 50 ? 12.0 : 0.0);
      watched.put(station, Quantity::temperature, time, 8.0 + hour % 24 / 4.0);
    }
  for (int hour = 72; hour <= 102; ++hour) {
    INFO("hour " << hour);
    watched.look(monday + hours{hour} + minutes{1});
  }
  // 50 h + 24 h: the rain has left, before the stations fall silent after 6 h.
  Watched again;
  for (int hour = 0; hour <= 72; ++hour) {
    again.put("yard", Quantity::rain, monday + hours{hour}, hour == 50 ? 12.0 : 0.0);
    again.put("yard", Quantity::temperature, monday + hours{hour}, 8.0 + hour % 24 / 4.0);
  }
  again.look(monday + hours{73} + minutes{59});
  CHECK(again.look(monday + hours{74}) == Ids{"top"});
}

}  // namespace
}  // namespace gley::daemon

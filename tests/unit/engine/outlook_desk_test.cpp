#include "daemon/engine/outlook/outlook_desk.hpp"

#include <algorithm>
#include <functional>

#include "daemon/engine/explain/explanation_day.hpp"
#include "daemon/engine/view/board_view.hpp"
#include "daemon/engine/watch/alert_watch.hpp"
#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

constexpr sys_days today = 2026y / 5 / 13;
const Instant morning{today + 6h};

FarmConfig farm() {
  FarmConfig farm = yard_farm();
  farm.longitude = -1.3;
  farm.fields.front().start_depletion_mm = 12.0;
  MachineConfig& tractor = farm.machines.emplace_back();
  tractor.id = "tractor";
  tractor.wheel_load_t = 1.0;
  tractor.tyre_pressure_bar = 0.6;
  MaterialConfig& slurry = farm.materials.emplace_back();
  slurry.id = "slurry";
  slurry.kind = MaterialKind::slurry;
  farm.forecast.emplace().topic = "forecast";
  return farm;
}

/// A week by the hour from `from` on as a SenML pack, with so much rain in the hour to a moment.
std::string week(Instant from, const std::function<double(Instant)>& rain_mm) {
  std::string pack = "[{\"bn\":\"\",\"bt\":0,\"n\":\"none\",\"v\":0}";
  for (int h = 0; h <= 7 * 24; ++h) {
    const Instant time = from + hours{h};
    const auto seconds = duration_cast<std::chrono::seconds>(time.time_since_epoch()).count();
    const std::string t = "\"t\":" + std::to_string(seconds);
    pack += ",{\"n\":\"rain\",\"u\":\"mm\"," + t + ",\"v\":" + std::to_string(rain_mm(time)) + "}";
    pack += ",{\"n\":\"temperature\",\"u\":\"Cel\"," + t +
            ",\"v\":" + std::to_string(8 + h % 24 / 4) + "}";
  }
  return pack + "]";
}

/// Dry, and on one day `wet_mm` from noon to six.
std::string week(Instant from, int wet_day, double wet_mm) {
  const Instant noon{today + days{wet_day} + 12h};
  return week(from,
              [&](Instant time) { return time > noon && time <= noon + 6h ? wet_mm / 6.0 : 0.0; });
}

/// A farm with a dry month behind it.
struct Yard {
  FarmStore store;
  FarmConfig config = farm();

  Yard() {
    DaysOfWeather past;
    for (int d = 1; d <= 30; ++d)
      past[today - days{d}] = {.rain_mm = 0.5, .tmin_c = 6.0, .tmax_c = 15.0};
    LoadedDays(store.database).put("yard", past, morning);
  }
  void forecast(Instant came, int wet_day, double wet_mm) {
    store.inbox.store_forecast("forecast", week(came, wet_day, wet_mm), came);
  }
};

/// What the board says at a moment.
struct Look {
  FarmState state;
  OutlookDesk desk;

  Look(
      Yard& yard, RunApart apart = {}, std::function<void()> ready = [] {})
      : state(yard.config, yard.store.database),
        desk(yard.config, yard.store.database, std::move(apart), std::move(ready)) {}

  [[nodiscard]] FieldView field(Instant now) {
    desk.catch_up();
    state.expect(desk.expected_today(now));
    state.look(now);
    desk.look(state, now);
    return board_of(state, {}, now, desk.outlook(now)).fields.front();
  }
};

bool held_for_heavy_rain(const FieldView& field) {
  const SpreadingView& slurry = field.spreading.front();
  return slurry.advice == "hold" &&
         std::ranges::any_of(slurry.reasons, [](const std::string& reason) {
           return reason.starts_with("heavy rain within 48 h ") &&
                  reason.find(", in about") != std::string::npos;
         });
}

}  // namespace

TEST_CASE("without a forecast spreading is not known and no window opens") {
  Yard yard;
  Look look(yard);
  const FieldView field = look.field(morning);
  CHECK(field.spreading.front().advice == "not known");
  CHECK_FALSE(field.machines.front().next_window.has_value());
  CHECK_FALSE(look.desk.view().has_value());
}

TEST_CASE("the explanation of today gives the board's reasons, frost by the hour among them") {
  Yard yard;
  // All night half a degree below zero: no frozen day by its extremes, but over 12 of 24 hours.
  for (Instant time = morning - 24h; time <= morning; time += 1h)
    yard.store.put(air_reading("yard", time, -0.5), time);
  yard.forecast(morning, 1, 60.0);
  Look look(yard);
  const SpreadingView slurry = look.field(morning).spreading.front();
  CHECK(slurry.reasons.front() == "ground frozen");
  const auto explained = day_of_farm(look.state, 0, today, morning, look.desk.outlook(morning));
  REQUIRE(explained.has_value());
  CHECK(explained->advice.front().advice == slurry.advice);
  CHECK(explained->advice.front().reasons == slurry.reasons);
}

TEST_CASE("a dry week is clear for spreading, and nothing ends what is carried") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  Look look(yard);
  const FieldView field = look.field(morning);
  CHECK(field.machines.front().verdict == "carries");
  CHECK_FALSE(field.machines.front().until.has_value());
  CHECK(field.spreading.front().advice == "clear");
  REQUIRE(look.desk.view().has_value());
  CHECK(look.desk.view()->members == model::made_members);
  CHECK(look.desk.view()->days == 7);
}

TEST_CASE("heavy rain ahead ends what is carried when it sets in, and holds slurry") {
  Yard yard;
  yard.forecast(morning, 1, 60.0);
  Look look(yard);
  const FieldView field = look.field(morning);
  CHECK(field.machines.front().verdict == "carries");
  REQUIRE(field.machines.front().until.has_value());
  CHECK(*field.machines.front().until > Instant(today + days{1} + 12h));
  CHECK(*field.machines.front().until <= Instant(today + days{1} + 18h));
  CHECK(field.spreading.front().advice == "hold");
  // What is still to fall is no reading: the board's own day stays dry.
  CHECK(field.rain_today_mm == 0.0);
}

TEST_CASE("no window to spread reaches the day before a night of heavy rain across 0 h") {
  Yard yard;
  constexpr Instant midnight{today + days{3}};
  const auto night = [=](Instant time) {
    return time > midnight - 6h && time <= midnight + 6h ? 40.0 / 12.0 : 0.0;
  };
  yard.store.inbox.store_forecast("forecast", week(morning, night), morning);
  yard.config.forecast->heavy_rain_mm = 30.0;
  Look look(yard);
  REQUIRE(look.field(morning).spreading.front().advice == "clear");
  const std::vector<TimeWindow>& windows =
      look.desk.outlook(morning)->fields.front()->materials.front();
  REQUIRE_FALSE(windows.empty());
  CHECK(windows.front().from == Instant{today});
  CHECK(windows.front().to == Instant{today + days{1}});
}

TEST_CASE("what counts as heavy rain is the farm's to say") {
  Yard yard;
  yard.forecast(morning, 1, 24.0);
  CHECK(held_for_heavy_rain(Look(yard).field(morning)));
  yard.config.forecast->heavy_rain_mm = 100.0;
  CHECK_FALSE(held_for_heavy_rain(Look(yard).field(morning)));
}

TEST_CASE("a forecast a day old is shown with its age and not believed") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  Look look(yard);
  CHECK(look.field(morning + 23h).spreading.front().advice == "clear");
  CHECK(look.field(morning + 25h).spreading.front().advice == "not known");
  CHECK(look.desk.view()->received == morning);
}

TEST_CASE("a forecast of a topic that is no longer named is not used") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  yard.config.forecast->topic = "other";
  CHECK(Look(yard).field(morning).spreading.front().advice == "not known");
  yard.config.forecast.reset();
  CHECK(Look(yard).field(morning).spreading.front().advice == "not known");
}

TEST_CASE("a store that holds nothing new keeps the newest that can be read") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  Look look(yard);
  (void)look.field(morning);
  yard.store.inbox.store_forecast("forecast", "{}", morning + 1h);
  CHECK(look.field(morning + 1h).spreading.front().advice == "clear");
  CHECK(look.desk.view()->received == morning);
}

TEST_CASE("the outlook is worked out at once after a forecast, else once a minute") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  Look look(yard);
  const auto made = [&](Instant now) {
    (void)look.field(now);
    return look.desk.outlook(now)->made;
  };
  CHECK(made(morning) == morning);
  CHECK(made(morning + 59s) == morning);
  CHECK(made(morning + 60s) == morning + 60s);
  yard.forecast(morning + 61s, 1, 60.0);
  CHECK(made(morning + 62s) == morning + 62s);
}

TEST_CASE("work away from the state's thread comes back, and what comes too late is dropped") {
  Yard yard;
  std::vector<std::function<std::function<void()>()>> waiting;
  int ready = 0;
  std::function<void()> late;
  {
    Look look(
        yard, [&](auto work) { waiting.push_back(std::move(work)); }, [&] { ++ready; });
    (void)look.field(morning);
    yard.forecast(morning, 0, 0.0);
    CHECK(look.field(morning).spreading.front().advice == "not known");
    REQUIRE(waiting.size() == 1);
    waiting[0]()();
    CHECK(ready == 1);
    CHECK(look.field(morning).spreading.front().advice == "clear");
    (void)look.field(morning + 2min);
    REQUIRE(waiting.size() == 2);
    late = waiting[1]();
  }
  late();
  CHECK(ready == 1);
}

TEST_CASE("an outlook that stood at the last start stands at the next one at once") {
  Yard yard;
  yard.forecast(morning, 0, 0.0);
  Look look(yard, [](const auto&) { FAIL("not at a start"); });
  CHECK(look.field(morning).spreading.front().advice == "clear");
}

TEST_CASE("rain that may fill a field is named once, until its chance is gone") {
  Yard yard;
  yard.forecast(morning, 1, 140.0);
  Look look(yard);
  AlertWatch alerts(yard.store.database);
  const ToldDesk told(look.state.farm(), yard.store.database);
  const auto named = [&](Instant now) {
    alerts.look(look.state, now, look.desk.outlook(now), told);
    return std::count_if(alerts.open().begin(), alerts.open().end(), [](const Alert& alert) {
      return words_of(alert.event).event == "near field capacity with rain expected";
    });
  };
  (void)look.field(morning);
  CHECK(named(morning) == 1);
  CHECK(named(morning + 1min) == 1);
  yard.forecast(morning + 2min, 0, 0.0);
  (void)look.field(morning + 2min);
  CHECK(named(morning + 2min) == 1);
  CHECK(named(morning + 2min + words_of(AlertEvent::rain_expected).lingers) == 0);
}

TEST_CASE("a forecast is scored when its day has come, and teaches the next") {
  Yard yard;
  // 40 mornings that each said 60 mm for a tomorrow that stayed all but dry.
  for (int d = 40; d >= 1; --d) {
    ForecastDay said{.issued = today - days{d},
                     .date = today - days{d - 1},
                     .members = 1,
                     .rain_mm = 60.0,
                     .rain_members_mm = {40.0, 60.0, 80.0}};
    ForecastDayStore(yard.store.database).put({said});
  }
  yard.forecast(morning, 1, 60.0);
  Look look(yard);
  const FieldView field = look.field(morning);
  REQUIRE(look.desk.view().has_value());
  REQUIRE(look.desk.view()->scores.size() == 1);
  CHECK(look.desk.view()->scores[0].pairs == 30);  // days of record; today has not ended
  CHECK(look.desk.view()->scores[0].right == 0);
  CHECK(field.spreading.front().advice == "clear");  // such forecasts have never come true
  CHECK(ForecastDayStore(yard.store.database).since(today + days{1}).size() == 6);
}

}  // namespace gley::daemon

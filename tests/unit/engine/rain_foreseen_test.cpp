// A gauge that stands alone, held against what was forecast.
#include <catch2/catch.hpp>

#include "daemon/engine/fields/checkpoint_store.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/view/board_view.hpp"
#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days today = 2026y / 11 / 20;
const Instant noon{today + 12h};

/// A farm with one gauge that has counted nothing for twelve days and today.
struct DryYard {
  FarmStore store;
  FarmConfig config = yard_farm();

  DryYard() {
    config.hash = "of this farm";
    config.store.path = store.directory / "farm.db";
    DaysOfWeather past;
    for (int ago = 12; ago >= 0; --ago)
      past[today - days{ago}] = {.rain_mm = 0.0, .tmin_c = 3.0, .tmax_c = 9.0};
    LoadedDays(store.database).put("yard", past, noon);
  }
  /// Ten millimetres by the middle one of three members, said so many days ahead.
  void forecast(int days_ago, int lead_days) {
    const sys_days date = today - days{days_ago};
    ForecastDayStore(store.database)
        .put({{.issued = date - days{lead_days},
               .date = date,
               .members = 3,
               .rain_mm = 20.0,
               .rain_members_mm = {50.0, 0.0, 10.0}}});
  }
};

std::vector<int> doubted(const FarmState& state) {
  std::vector<int> days_ago;
  for (const auto& [date, doubts] : state.book().doubts("yard"))
    days_ago.push_back(static_cast<int>((today - date).count()));
  return days_ago;
}

model::DayFlags flags_of_last_day(const FarmState& state) {
  return state.book().weather(0).days().back().flags;
}

}  // namespace

TEST_CASE("a lone gauge that is dry through four days of forecast rain is not used") {
  DryYard yard;
  for (const int ago : {9, 7, 5, 2}) yard.forecast(ago, 1);
  FarmState state(yard.config, yard.store.database);
  state.look(noon);
  CHECK(doubted(state) == std::vector<int>{9, 8, 7, 6, 5, 4, 3, 2, 1, 0});
  CHECK(flags_of_last_day(state).has(model::DayFlag::rain_doubtful));
  CHECK(flags_of_last_day(state).has(model::DayFlag::rain_missing));
}

TEST_CASE("the field of a gauge that is not used is judged by how wet it may be") {
  DryYard yard;
  MachineConfig& tractor = yard.config.machines.emplace_back();
  tractor.id = "tractor";
  tractor.wheel_load_t = 1.0;
  tractor.tyre_pressure_bar = 0.6;
  yard.config.fields.front().start_depletion_mm = 25.0;
  FarmState trusting(yard.config, yard.store.database);
  trusting.look(noon);
  CHECK(trusting.day_if_wetter(0) == nullptr);
  CHECK(field_view(trusting, 0, noon, nullptr).machines.front().verdict == "carries");

  for (const int ago : {9, 7, 5, 2}) yard.forecast(ago, 1);
  FarmState doubting(yard.config, yard.store.database);
  doubting.look(noon);
  const FieldView view = field_view(doubting, 0, noon, nullptr);
  REQUIRE(view.uncertainty_mm.has_value());
  // Nine days of 2.2 mm and three times 4.5: less what would have run off, drained or evaporated.
  CHECK(*view.uncertainty_mm > 20.0);
  CHECK(*view.uncertainty_mm < 9 * 2.2 + 3 * 4.5);
  CHECK(view.machines.front().verdict == "not known");
  CHECK(view.machines.front().reasons.front().find("rain of some days is not known") !=
        std::string::npos);
}

TEST_CASE("forecasts of days ago, and of today, speak against no gauge") {
  DryYard yard;
  for (const int ago : {9, 7, 5}) yard.forecast(ago, 1);
  for (const int ago : {4, 3}) yard.forecast(ago, 2);
  yard.forecast(0, 1);
  FarmState state(yard.config, yard.store.database);
  state.look(noon);
  CHECK(doubted(state).empty());
  state.look(noon + 24h);  // and a day later the fourth is over
  CHECK(doubted(state) == std::vector<int>{9, 8, 7, 6, 5, 4, 3, 2, 1, 0});
}

TEST_CASE("a state that goes on from a checkpoint doubts what was doubted") {
  DryYard yard;
  for (const int ago : {9, 7, 5, 2}) yard.forecast(ago, 1);
  FarmState first(yard.config, yard.store.database);
  first.look(noon);
  store_checkpoint(yard.config, *first.keeper().checkpoint());
  FarmState second(yard.config, yard.store.database);
  CHECK(second.started_from() == FarmState::Start::checkpoint);
  second.look(noon);
  CHECK(doubted(second) == doubted(first));
  CHECK(second.book().days_csv(0, {}) == first.book().days_csv(0, {}));
}

}  // namespace gley::daemon

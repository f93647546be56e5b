#include <catch2/catch.hpp>

#include "daemon/store/alert_store.hpp"
#include "daemon/store/derived_store.hpp"
#include "daemon/store/forecast_store.hpp"
#include "daemon/store/loaded_days.hpp"
#include "daemon/store/store_error.hpp"
#include "daemon/store/store_lock.hpp"
#include "tests/unit/store/farm_store.hpp"

using namespace gley::daemon;
using namespace std::chrono_literals;

namespace {

constexpr std::chrono::sys_days day{std::chrono::year{2026} / 3 / 1};
const Instant noon{day + 12h};

}  // namespace

TEST_CASE("loaded_days_come_back_and_are_replaced_by_a_later_load") {
  FarmStore farm;
  LoadedDays days(farm.database);
  gley::model::DailyWeather weather;
  weather.rain_mm = 0.1;
  weather.tmin_c = -2.5;
  weather.irrigation_mm = 0.0;
  gley::model::DailyWeather later;
  later.et0_mm = 1.7;
  days.put("yard", {{day, weather}, {day + std::chrono::days(1), weather}}, noon);
  days.put("yard", {{day, later}}, noon);
  CHECK(days.all("yard") == DaysOfWeather{{day, later}, {day + std::chrono::days(1), weather}});
  CHECK(days.all("brook").empty());
}

TEST_CASE("a_forecast_that_comes_again_is_kept_once") {
  FarmStore farm;
  ForecastStore forecasts(farm.database);
  CHECK_FALSE(forecasts.newest().has_value());
  const std::string first("{\"a\":\0}", 7);
  CHECK(farm.inbox.store_forecast("f", first, noon));
  CHECK(farm.inbox.store_forecast("f", "second", noon + 1h));
  CHECK_FALSE(farm.inbox.store_forecast("f", first, noon + 2h));
  CHECK(farm.inbox.store_forecast("other", first, noon + 3h));
  const auto all = forecasts.after(0);
  REQUIRE(all.size() == 3);
  CHECK(all[0].payload == first);
  CHECK(all[1].received == noon + 1h);
  CHECK(forecasts.newest()->topic == "other");
  forecasts.forget_before(noon + 24h);
  REQUIRE(forecasts.after(0).size() == 1);
  CHECK(forecasts.newest()->topic == "other");
}

TEST_CASE("an_alert_lives_over_a_restart_and_remembers_who_saw_it") {
  const gley::tests::ScratchDirectory directory;
  StoredAlert alert{.id = "waterlogged-1",
                    .event = "waterlogged",
                    .fields = {"top", "low;er \"field\""},
                    .active = {"top"},
                    .severity = "Moderate",
                    .onset = noon,
                    .ended = {},
                    .headline = "Waterlogged: Top Field",
                    .seen_by = {},
                    .seen = {}};
  {
    auto database = open_store(directory / "farm.db", Durability::process);
    AlertStore alerts(database);
    alerts.put(alert);
    CHECK(alerts.mark_seen(alert.id, "Ann", noon + 1h));
    CHECK_FALSE(alerts.mark_seen("none", "Ann", noon));
  }
  auto database = open_store(directory / "farm.db", Durability::process);
  AlertStore alerts(database);
  REQUIRE(alerts.open().size() == 1);
  const auto open = alerts.open()[0];
  CHECK(open.fields == alert.fields);
  CHECK(open.active == alert.active);
  CHECK(open.onset == noon);
  CHECK(open.seen_by == "Ann");
  CHECK(open.seen == noon + 1h);
  alert.ended = noon + 2h;
  alert.active.clear();
  alerts.put(alert);
  CHECK(alerts.open().empty());
  REQUIRE(alerts.since(noon).size() == 1);
  CHECK(alerts.since(noon)[0].ended == noon + 2h);
  CHECK(alerts.since(noon)[0].seen_by == "Ann");
  CHECK(alerts.since(noon + 1ms).empty());
}

TEST_CASE("derived_data_made_under_another_configuration_or_model_is_not_given_out") {
  FarmStore farm;
  DerivedStore derived(farm.database);
  const std::string body("\0\1binary", 8);
  derived.put({"state", "hash1", "0.1.0"}, body);
  CHECK(derived.get({"state", "hash1", "0.1.0"}) == body);
  CHECK_FALSE(derived.get({"state", "hash2", "0.1.0"}).has_value());
  CHECK_FALSE(derived.get({"state", "hash1", "0.2.0"}).has_value());
  derived.put({"state", "hash2", "0.1.0"}, "");
  CHECK(derived.get({"state", "hash2", "0.1.0"}) == "");
}

TEST_CASE("a_store_is_used_by_one_daemon_at_a_time") {
  const gley::tests::ScratchDirectory directory;
  {
    const StoreLock lock(directory / "farm.db");
    CHECK_THROWS_WITH(StoreLock(directory / "farm.db"),
                      Catch::Matchers::Contains("farm.db: another gleyd is running"));
  }
  CHECK_NOTHROW(StoreLock(directory / "farm.db"));
  CHECK_THROWS_AS(StoreLock(directory / "absent/farm.db"), StoreError);
}

TEST_CASE("whether_a_daemon_uses_a_store_is_asked_without_locking_it") {
  const gley::tests::ScratchDirectory directory;
  const auto store = directory / "farm.db";
  CHECK_FALSE(StoreLock::is_held(store));
  CHECK_FALSE(std::filesystem::exists(directory / "farm.db.lock"));
  std::optional<StoreLock> lock;
  lock.emplace(store);
  CHECK(StoreLock::is_held(store));
  CHECK_THROWS_AS(StoreLock(store), StoreError);  // to ask has not freed it
  lock.reset();
  CHECK_FALSE(StoreLock::is_held(store));
}

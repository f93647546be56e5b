#include "daemon/store/told_store.hpp"

#include <catch2/catch.hpp>

#include "daemon/store/alert_store.hpp"
#include "daemon/store/store_error.hpp"
#include "tests/unit/store/farm_store.hpp"

using namespace gley::daemon;
using namespace std::chrono_literals;

namespace {

constexpr std::chrono::sys_days day{std::chrono::year{2026} / 3 / 1};
const Instant noon{day + 12h};
const Dressing dressing{
    .field = "top", .material = "nitrogen", .rate = 120.5, .unit = "kg/ha", .time = noon};
const FieldReport ruts{
    .field = "top", .kind = ReportKind::left_ruts, .machine = "drill", .time = noon};

}  // namespace

TEST_CASE("what_is_told_is_kept_once_with_who_told_it_and_how") {
  FarmStore farm;
  ToldStore store(farm.database);
  CHECK(store.rows() == 0);
  CHECK(store.put(dressing, {ToldVia::mqtt, "Ann"}, noon + 1h));
  CHECK_FALSE(store.put(dressing, {ToldVia::http, "Bob"}, noon + 2h));
  CHECK(store.put(ruts, {ToldVia::command, ""}, noon + 1h));
  CHECK(store.rows() == 2);
  const auto dressings = store.dressings_since(noon);
  REQUIRE(dressings.size() == 1);
  CHECK(dressings[0].dressing == dressing);
  CHECK(dressings[0].teller == Teller{ToldVia::mqtt, "Ann"});
  CHECK(dressings[0].told == noon + 1h);
  const auto reports = store.reports_since(noon);
  REQUIRE(reports.size() == 1);
  CHECK(reports[0].report == ruts);
  CHECK(reports[0].teller.via == ToldVia::command);
  CHECK(store.dressings_since(noon + 1ms).empty());
}

TEST_CASE("what_was_told_can_be_neither_changed_nor_removed") {
  FarmStore farm;
  ToldStore(farm.database).put(dressing, {ToldVia::mqtt, "Ann"}, noon);
  ToldStore(farm.database).put(ruts, {ToldVia::mqtt, "Ann"}, noon);
  CHECK_THROWS_AS(farm.database.execute("UPDATE dressing SET rate = 1"), StoreError);
  CHECK_THROWS_AS(farm.database.execute("DELETE FROM dressing"), StoreError);
  CHECK_THROWS_AS(farm.database.execute("UPDATE field_report SET field = 'low'"), StoreError);
  CHECK_THROWS_AS(farm.database.execute("DELETE FROM field_report"), StoreError);
}

TEST_CASE("who_saw_an_alert_first_stays_and_ended_alerts_are_found") {
  FarmStore farm;
  AlertStore store(farm.database);
  StoredAlert alert{.id = "window-opening-drill-1",
                    .event = "window opening",
                    .subject = "drill",
                    .fields = {"top"},
                    .active = {},
                    .severity = "Minor",
                    .onset = noon,
                    .ended = noon + 24h,
                    .headline = "Window opening",
                    .seen_by = {},
                    .seen = {}};
  store.put(alert);
  CHECK(store.mark_seen(alert.id, "Ann", noon + 1h));
  CHECK_FALSE(store.mark_seen(alert.id, "Bob", noon + 2h));
  REQUIRE(store.find(alert.id).has_value());
  CHECK(store.find(alert.id)->seen_by == "Ann");
  CHECK(store.find(alert.id)->subject == "drill");
  CHECK_FALSE(store.find("none").has_value());
  CHECK(store.ended_since(noon, 10).size() == 1);
  CHECK(store.ended_since(noon + 25h, 10).empty());
  CHECK(store.open().empty());
}

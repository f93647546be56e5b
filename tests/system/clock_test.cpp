#include <catch2/catch.hpp>

#include "daemon/text/date_text.hpp"
#include "tests/system/faults.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using namespace std::chrono;
using Catch::Matchers::Contains;

namespace {

sys_seconds now() {
  return floor<seconds>(system_clock::now());
}

std::string date_of(const Gleyd& gleyd) {
  const auto water = gleyd.json("/api/field/top")["water"];
  return water["date"].is_string() ? water["date"].get<std::string>() : "";
}

}  // namespace

TEST_CASE("at_midnight_the_day_closes_and_the_next_begins_without_a_reading") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  Faults faults(gleyd);
  const sys_days today = floor<days>(now());
  const sys_days tomorrow = today + days{1};
  faults.clock_ahead(tomorrow - seconds{4} - now());
  gleyd.start_online();
  broker.publish("weather/yard/pack", senml_pack({{"rain", tomorrow - hours{2}, 7.5}}));
  REQUIRE(gleyd.eventually_stored(1));
  const std::string next = gley::daemon::date_text(tomorrow);
  CHECK(eventually([&] { return date_of(gleyd) == next; }));
  CHECK(gleyd.json("/api/field/top")["water"]["rain_today_mm"] == 0.0);
  CHECK_THAT(gleyd.get("/api/field/top/days.csv").body,
             Contains(gley::daemon::date_text(today) + ",top,7.5,"));
}

TEST_CASE("a_clock_that_jumps_is_named_and_does_no_lasting_harm") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  Faults faults(gleyd);
  gleyd.start_online();
  broker.publish("weather/yard/pack", senml_pack({{"rain", now() - minutes{5}, 3.5}}));
  REQUIRE(gleyd.eventually_stored(1));
  const std::string today = date_of(gleyd);

  faults.clock_ahead(days{40});
  REQUIRE(gleyd.eventually_logs("the clock went"));
  CHECK(eventually([&] { return date_of(gleyd) != today; }));
  faults.clock_ahead(seconds{0});
  CHECK(eventually([&] { return date_of(gleyd) == today; }));
  CHECK(eventually([&] { return gleyd.metric("gley_clock_jumps_total") == 2.0; }));
  broker.publish("weather/yard/pack", senml_pack({{"rain", now() - minutes{1}, 1.5}}));
  CHECK(eventually(
      [&] { return gleyd.json("/api/field/top")["water"]["rain_today_mm"].get<double>() >= 1.5; }));
  CHECK(gleyd.running());
}

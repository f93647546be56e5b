#include <catch2/catch.hpp>

#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"

using namespace gley::tests;

TEST_CASE("numbers_without_a_time_that_waited_in_the_broker_are_kept_named_and_not_used") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start_online();
  broker.publish("weather/yard/rain", "1.5");
  REQUIRE(gleyd.eventually_stored(1));
  gleyd.stop();
  for (const char* amount : {"20", "20", "30"}) broker.publish("weather/yard/rain", amount);
  gleyd.start_online();
  REQUIRE(gleyd.eventually_stored(3));

  const auto named = [&] {
    const auto board = gleyd.json("/api/board");
    for (const auto& alert : board["alerts"])
      if (alert["event"] == "readings without a time")
        return alert["headline"].get<std::string>().find("yard") != std::string::npos;
    return false;
  };
  CHECK(eventually(named));
  CHECK(gleyd.json("/api/field/top")["water"]["rain_today_mm"] == 1.5);

  // Behind the backlog a number counts on arrival again.
  broker.publish("weather/yard/rain", "2.5");
  CHECK(eventually([&] { return gleyd.json("/api/field/top")["water"]["rain_today_mm"] == 4.0; }));

  gleyd.stop(SIGKILL);
  gleyd.start();
  CHECK(named());
  CHECK_THAT(gleyd.log(), !Catch::Matchers::Contains("ended"));
  gley::daemon::Database database(gleyd.store(), gley::daemon::Durability::process);
  CHECK(database.number("SELECT count(*) FROM reading WHERE status = 0") == 2);  // used
  CHECK(database.number("SELECT count(*) FROM reading WHERE status = 3") == 3);  // time unknown
}

#include <catch2/catch.hpp>

#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"

using namespace gley::daemon;
using namespace gley::tests;

TEST_CASE("a_root_changed_in_the_configuration_waits_for_the_next_start") {
  const Broker broker;
  Gleyd gleyd(FarmText(broker.port()));
  gleyd.start_online();
  gleyd.farm.mqtt = "root = \"farms/alder\"\n";
  gleyd.configure();
  gleyd.reload();
  REQUIRE(gleyd.eventually_logs("configuration taken up"));
  CHECK(gleyd.eventually_logs("[mqtt] are taken up at the next start only"));
  broker.publish("weather/yard/rain", "1.2");
  CHECK(eventually_retained(broker, [](const Topics& seen) {
    const auto water = seen.find("gley/alder/field/top/water");
    return water != seen.end() && nlohmann::json::parse(water->second)["rain_today_mm"] == 1.2;
  }));
  gleyd.stop();

  // Then nothing of ours stays under the old root but the word that we are not there.
  gleyd.start();
  CHECK(eventually_retained(broker, [](const Topics& seen) {
    return seen == Topics{{"gley/alder/state", "offline"}};
  }));
}

TEST_CASE("a_reload_that_comes_while_the_daemon_starts_does_not_end_it") {
  Gleyd gleyd(FarmText{});
  gleyd.start();
  gleyd.stop();
  const std::string log = gleyd.log();
  {
    // The start waits for a store that another program holds.
    Database other(gleyd.store(), Durability::process);
    const Transaction held(other);
    gleyd.launch();
    REQUIRE(
        eventually([&] { return gleyd.log().find("1 fields", log.size()) != std::string::npos; }));
    gleyd.reload();
  }
  CHECK(gleyd.eventually_logs("configuration taken up"));
  CHECK(gleyd.running());
}

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <random>
#include <thread>

#include "daemon/store/reading_store.hpp"
#include "daemon/store/schema.hpp"
#include "tests/system/faults.hpp"
#include "tests/system/hours_of_rain.hpp"

using namespace gley::tests;
using namespace gley::daemon;
using namespace std::chrono;
using Catch::Matchers::Contains;

TEST_CASE("on_a_full_disk_readings_wait_with_the_broker_and_come_in_when_there_is_room") {
  const Broker broker({"max_queued_messages 10000"});
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  Faults faults(gleyd);
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 10);
  REQUIRE(gleyd.eventually_stored(10));

  faults.disk_full(true);
  send_hours(broker, gleyd, 10, 60);
  REQUIRE(gleyd.eventually_logs("cannot store a message"));
  CHECK_THAT(gleyd.log(), Contains("full"));
  CHECK(eventually(
      [&] { return gleyd.get("/").body.find("database or disk is full") != std::string::npos; }));
  CHECK(gleyd.metric("gley_readings_total{outcome=\"stored\"}") == 10.0);

  faults.disk_full(false);
  CHECK(gleyd.eventually_stored(60));
  CHECK(gleyd.eventually_logs("storing messages again"));
  CHECK(stored_rows(gleyd.store()) == 60);
}

TEST_CASE("killed_on_a_full_disk_the_daemon_gets_from_the_broker_what_it_could_not_store") {
  const Broker broker({"max_queued_messages 10000"});
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  Faults faults(gleyd);
  gleyd.start_online();
  faults.disk_full(true);
  send_hours(broker, gleyd, 0, 30);
  REQUIRE(gleyd.eventually_logs("cannot store a message"));
  gleyd.stop(SIGKILL);
  faults.disk_full(false);
  gleyd.start();
  CHECK(eventually([&] { return stored_rows(gleyd.store()) == 30; }));
}

TEST_CASE("nothing_acknowledged_is_lost_when_the_power_goes") {
  const int cuts = std::getenv("GLEY_LONG") != nullptr ? 100 : 6;
  constexpr int hours_a_life = 40;
  const auto seed = std::random_device{}();
  INFO("seed " << seed);
  std::mt19937 random(seed);
  const Broker broker({"max_queued_messages 100000"});
  FarmText farm = farm_with_old_hours(broker.port());
  farm.durability = "power";
  Gleyd gleyd(farm);
  Faults faults(gleyd);
  gleyd.start_online();
  for (int life = 0; life < cuts; ++life) {
    send_hours(broker, gleyd, life * hours_a_life, (life + 1) * hours_a_life);
    // The moment is chosen by chance: before, while or after the readings are taken in.
    std::this_thread::sleep_for(milliseconds(std::uniform_int_distribution<int>(0, 120)(random)));
    faults.cut_power();
    gleyd.start();
  }
  const int sent = cuts * hours_a_life;
  CHECK(eventually([&] { return stored_rows(gleyd.store()) >= sent; }));
  CHECK(stored_rows(gleyd.store()) == sent);
  CHECK(Database(gleyd.store(), Durability::process)
            .number("SELECT count(*) FROM pragma_integrity_check WHERE integrity_check = 'ok'") ==
        1);
}

TEST_CASE("a_store_that_another_program_holds_is_named_and_waited_for") {
  const Broker broker;
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.start_online();
  {
    Database other(gleyd.store(), Durability::process);
    const Transaction held(other);
    send_hours(broker, gleyd, 0, 1);
    REQUIRE(gleyd.eventually_logs("cannot store a message"));
    CHECK_THAT(gleyd.log(), Contains("alder.db") && Contains("locked"));
  }
  CHECK(gleyd.eventually_stored(1));
}

TEST_CASE("a_store_that_is_damaged_is_refused_with_a_word_on_what_to_do") {
  const Broker broker;
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 500);
  REQUIRE(gleyd.eventually_stored(500));
  gleyd.stop();
  {
    std::fstream file(gleyd.store(), std::ios::in | std::ios::out | std::ios::binary);
    const auto size = static_cast<int>(std::filesystem::file_size(gleyd.store()));
    for (int at = 4096; at + 2048 < size; at += 4096) {
      file.seekp(at);
      file << std::string(2048, 'x');
    }
  }
  gleyd.launch();
  REQUIRE(eventually([&] { return !gleyd.running(); }));
  CHECK(gleyd.stop() == 1);
  CHECK_THAT(gleyd.log(), Contains("alder.db") && Contains("damaged") && Contains("backup"));
}

TEST_CASE("a_store_written_by_a_newer_version_is_left_alone") {
  Gleyd gleyd(FarmText{});
  gleyd.start();
  gleyd.stop();
  Database(gleyd.store(), Durability::process).execute("PRAGMA user_version = 9999");
  for (const char* command : {"serve", "today"}) {
    const Said said = gleyd.command(command);
    INFO(command);
    CHECK(said.code == 1);
    CHECK_THAT(said.err, Contains("newer"));
  }
  CHECK(Database(gleyd.store(), Durability::process).number("PRAGMA user_version") == 9999);
}

TEST_CASE("a_backup_taken_while_readings_come_in_gives_the_same_days") {
  const Broker broker;
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 24 * 20);
  REQUIRE(gleyd.eventually_stored(24 * 20));
  const auto copy = gleyd.directory() / "copy.db";
  REQUIRE(gleyd.command("backup", {"--to", copy.string()}).code == 0);
  const std::string days = "/api/field/top/days.csv?to=2018-03-20";
  std::string before;
  REQUIRE(eventually([&] {
    before = gleyd.get(days).body;
    return before.find("2018-03-20") != std::string::npos;
  }));
  gleyd.stop();
  std::filesystem::remove(gleyd.store());
  std::filesystem::rename(copy, gleyd.store());
  gleyd.start();
  CHECK(eventually([&] { return gleyd.get(days).body == before; }));
}

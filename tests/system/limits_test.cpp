#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <list>

#include "daemon/readings/number_text.hpp"
#include "daemon/store/schema.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/raw_client.hpp"

using namespace gley::tests;
using namespace gley::daemon;
using namespace std::chrono;
using Catch::Matchers::Contains;

namespace {

FarmText farm_for(const Broker& broker) {
  FarmText farm;
  farm.mqtt_port = broker.port();
  farm.oldest_days = 100000;
  return farm;
}

void send_hours(const Broker& broker, const Gleyd& gleyd, int from, int to) {
  std::string lines;
  for (int n = from; n < to; ++n) {
    const sys_seconds time = sys_days{2018y / 3 / 1} + hours{n};
    lines += "[{\"n\":\"rain\",\"t\":" + std::to_string(time.time_since_epoch().count()) +
             ",\"v\":" + number_text((n % 50) / 10.0) + "}]\n";
  }
  publish_lines(broker.port(), "weather/yard/pack", gleyd.write("hours", lines));
}

std::int64_t stored_rows(const std::filesystem::path& store) {
  return Database(store, Durability::process).number("SELECT count(*) FROM reading");
}

}  // namespace

TEST_CASE("too_few_open_files_are_named_at_the_start") {
  Gleyd gleyd(FarmText{});
  gleyd.under = {"prlimit", "--nofile=24"};
  gleyd.launch();
  REQUIRE(eventually(patience, [&] { return !gleyd.running(); }));
  CHECK(gleyd.stop() == 1);
  CHECK_THAT(gleyd.log(), Contains("only 24 files may be open at once") && Contains("ulimit -n"));
}

TEST_CASE("out_of_open_files_readings_go_on_and_pages_come_back") {
  const Broker broker;
  Gleyd gleyd(farm_for(broker));
  gleyd.under = {"prlimit", "--nofile=48"};
  gleyd.start_online();
  CHECK_THAT(gleyd.log(), Contains("only 48 files may be open at once"));
  {
    std::list<gley::daemon::RawClient> displays;
    for (int i = 0; i < 60; ++i) displays.emplace_back(gleyd.farm.http_port);
    REQUIRE(gleyd.eventually_logs("cannot take a connection: Too many open files"));
    send_hours(broker, gleyd, 0, 100);
    CHECK(eventually(patience, [&] { return stored_rows(gleyd.store()) == 100; }));
  }
  CHECK(gleyd.eventually_stored(100));
}

// A sanitizer maps all the address space there is, so a limit on it would let nothing run.
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
TEST_CASE("out_of_memory_it_says_so_ends_and_goes_on_with_nothing_lost") {
  const Broker broker({"max_queued_messages 100000"});
  Gleyd gleyd(farm_for(broker));
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 100);
  REQUIRE(gleyd.eventually_stored(100));
  const rlimit none_left{.rlim_cur = 1, .rlim_max = RLIM_INFINITY};
  REQUIRE(::prlimit(gleyd.pid(), RLIMIT_AS, &none_left, nullptr) == 0);
  int sent = 100;
  const bool ended = eventually(patience, [&] {
    send_hours(broker, gleyd, sent, sent + 1000);
    sent += 1000;
    return !gleyd.running();
  });
  CHECK(ended);
  CHECK_THAT(gleyd.log(), Contains("gleyd: out of memory"));
  CHECK(gleyd.stop() == 1);
  gleyd.start();
  CHECK(eventually(minutes(2), [&] { return stored_rows(gleyd.store()) >= sent; }));
  CHECK(stored_rows(gleyd.store()) == sent);
}
#endif

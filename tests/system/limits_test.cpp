#include <sys/resource.h>

#include <catch2/catch.hpp>
#include <list>

#include "tests/system/hours_of_rain.hpp"
#include "tests/system/raw_client.hpp"

using namespace gley::tests;
using namespace std::chrono;
using Catch::Matchers::Contains;

TEST_CASE("too_few_open_files_are_named_at_the_start") {
  Gleyd gleyd(FarmText{});
  gleyd.under = {"prlimit", "--nofile=24"};
  gleyd.launch();
  REQUIRE(eventually([&] { return !gleyd.running(); }));
  CHECK(gleyd.stop() == 1);
  CHECK_THAT(gleyd.log(), Contains("only 24 files may be open at once") && Contains("ulimit -n"));
}

// The undefined-behaviour sanitizer, built in with the address sanitizer, looks through a pipe
// whether an object's memory can be read (vptr): with no file left to open it calls a sound object
// broken and ends the daemon.
#ifndef __SANITIZE_ADDRESS__
TEST_CASE("out_of_open_files_readings_go_on_and_pages_come_back") {
  const Broker broker;
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.under = {"prlimit", "--nofile=48"};
  gleyd.start_online();
  CHECK_THAT(gleyd.log(), Contains("only 48 files may be open at once"));
  {
    std::list<RawClient> displays;
    for (int i = 0; i < 60; ++i) displays.emplace_back(gleyd.farm.http_port);
    REQUIRE(gleyd.eventually_logs("cannot take a connection: Too many open files"));
    send_hours(broker, gleyd, 0, 100);
    CHECK(eventually([&] { return stored_rows(gleyd.store()) == 100; }));
  }
  CHECK(gleyd.eventually_stored(100));
}
#endif

// A sanitizer maps all the address space there is, so a limit on it would let nothing run.
#if !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
TEST_CASE("out_of_memory_it_says_so_ends_and_goes_on_with_nothing_lost") {
  const Broker broker({"max_queued_messages 100000"});
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.start_online();
  send_hours(broker, gleyd, 0, 100);
  REQUIRE(gleyd.eventually_stored(100));
  const rlimit none_left{.rlim_cur = 1, .rlim_max = RLIM_INFINITY};
  REQUIRE(::prlimit(gleyd.pid(), RLIMIT_AS, &none_left, nullptr) == 0);
  int sent = 100;
  const bool ended = eventually([&] {
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

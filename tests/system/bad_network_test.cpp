#include <catch2/catch.hpp>
#include <cstdlib>

#include "tests/system/fake_broker.hpp"
#include "tests/system/hours_of_rain.hpp"

using namespace gley::tests;
using namespace gley::daemon;
using namespace std::chrono;

namespace {

constexpr int messages = 120;

std::vector<std::string> hours_of_rain() {
  std::vector<std::string> packs;
  for (int n = 0; n < messages; ++n) packs.push_back(hour_of_rain(n));
  return packs;
}

/// How the stored hours differ from those sent, in words.
std::string fault_in_store(const std::filesystem::path& file) {
  Database database(file, Durability::process);
  const auto rows = database.number("SELECT count(*) FROM reading");
  const auto different = database.number("SELECT count(DISTINCT time_ms) FROM reading");
  const auto tenths =
      database.number("SELECT CAST(round(10 * sum(value)) AS INTEGER) FROM reading");
  int sum_of_tenths = 0;
  for (int n = 0; n < messages; ++n) sum_of_tenths += rain_tenths(n);
  if (rows == messages && different == messages && tenths == sum_of_tenths) return "";
  return std::to_string(rows) + " rows, " + std::to_string(different) + " hours, sum " +
         std::to_string(tenths);
}

}  // namespace

TEST_CASE("a_network_cut_in_mid_packet_loses_and_doubles_nothing") {
  using Way = Cut::Way;
  // Each costs the library's 3 s to connect again. Broken off in the topic, in the payload, and
  // behind the first byte; the long run has the client's own keep-alive (30 s) notice the silence.
  const bool long_run = std::getenv("GLEY_LONG") != nullptr;
  std::vector<Cut> cuts{{.whole_messages = 7, .bytes = 9, .way = Way::close},
                        {.whole_messages = 33, .bytes = 40, .way = Way::reset},
                        {.whole_messages = 30,
                         .bytes = 1,
                         .way = Way::stall,
                         .stalls_for = long_run ? minutes(10) : seconds(1)}};
  for (int byte = 0; long_run && byte < 60; byte += 3)
    cuts.push_back({.whole_messages = byte % 4,
                    .bytes = static_cast<std::size_t>(byte),
                    .way = byte % 2 == 0 ? Way::close : Way::reset});
  FakeBroker broker("weather/yard/pack", hours_of_rain(), cuts);
  Gleyd gleyd(farm_with_old_hours(broker.port()));
  gleyd.start();
  REQUIRE(eventually(minutes(8), [&] { return broker.acknowledged() == messages; }));
  CHECK(broker.cuts_made() == static_cast<int>(cuts.size()));
  CHECK(broker.connections() == static_cast<int>(cuts.size()) + 1);
  CHECK(broker.sent_again() > 0);
  CHECK(broker.online() > 0);
  CHECK(broker.online_too_soon() == 0);
  REQUIRE(fault_in_store(gleyd.store()) == "");
  CHECK(gleyd.eventually_logs("no connection to the broker at 127.0.0.1"));
  CHECK(eventually([&] { return gleyd.metric("gley_broker_connected") == 1.0; }));
  WARN("bad_network_test: " << broker.cuts_made() << " cuts, " << broker.sent_again()
                            << " messages sent again, 0 lost, 0 doubled");
}

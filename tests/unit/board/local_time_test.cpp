#include "daemon/board/words/local_time.hpp"

#include <catch2/catch.hpp>

#include "tests/unit/board/board_example.hpp"

namespace gley::daemon {
namespace {

using std::chrono::hours;
using std::chrono::minutes;

TEST_CASE("times in data are RFC 3339 in UTC, whole seconds") {
  CHECK(rfc3339(example_time + std::chrono::milliseconds{999}) == "2026-11-25T06:40:00Z");
  CHECK(rfc3339(Instant{std::chrono::milliseconds{-1}}) == "1969-12-31T23:59:59Z");
}

TEST_CASE("an HTTP date is written as RFC 9110 shows it") {
  // RFC 9110, section 5.6.7: "Sun, 06 Nov 1994 08:49:37 GMT" is 784111777 s of Unix time.
  CHECK(http_date(Instant{std::chrono::seconds{784111777}}) == "Sun, 06 Nov 1994 08:49:37 GMT");
}

TEST_CASE("the farm's clock follows its zone through summer time") {
  const FarmClock clock("Europe/London");
  CHECK(clock.clock(example_time) == "06:40");
  CHECK(clock.day(example_time) == "Wednesday 25 November 2026");
  // British Summer Time began on 29 March 2026 at 01:00 UTC.
  const Instant before{std::chrono::sys_days{std::chrono::year{2026} / 3 / 29} + minutes{59}};
  CHECK(clock.clock(before) == "00:59");
  CHECK(clock.clock(before + minutes{1}) == "02:00");
}

TEST_CASE("a time of another day names the day, of another year the year") {
  const FarmClock clock("Europe/London");
  CHECK(clock.as_seen(example_time - minutes{5}, example_time) == "06:35");
  CHECK(clock.as_seen(example_time - hours{7}, example_time) == "Tue 24 Nov 23:40");
  CHECK(clock.as_seen(example_time - hours{24 * 365}, example_time) == "25 Nov 2025 06:40");
}

TEST_CASE("a zone this system does not know shows UTC and says so") {
  CHECK(FarmClock("Nowhere/Land").clock(example_time) == "06:40 UTC");
}

}  // namespace
}  // namespace gley::daemon

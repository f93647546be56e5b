#include "daemon/engine/run/progress.hpp"

#include <catch2/catch.hpp>

#include "daemon/engine/run/clock_watch.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;

const Progress::Time start{1000s};
const ClockWatch::Wall wall{500'000s};

TEST_CASE("a thread that turns each second stands never still") {
  Progress progress;
  for (auto at = start; at < start + 100s; at += 1s) CHECK_FALSE(progress.turned(at).has_value());
  CHECK_FALSE(progress.stood_still(start + 100s).has_value());
}

TEST_CASE("a standstill is told when it ends and named for a minute") {
  Progress progress;
  (void)progress.turned(start);
  CHECK(progress.turned(start + 25s) == 25s);
  CHECK(progress.turned(start + 40s) == 15s);
  CHECK_FALSE(progress.turned(start + 41s).has_value());
  CHECK(progress.stood_still(start + 42s) == 25s);
  CHECK_FALSE(progress.stood_still(start + 101s).has_value());
}

TEST_CASE("a clock that is set, or sleeps, is noticed; a disciplined one is not") {
  ClockWatch watch;
  CHECK_FALSE(watch.look(wall, start).has_value());
  CHECK_FALSE(watch.look(wall + 1s, start + 1s).has_value());
  CHECK(watch.look(wall + 3602s, start + 2s) == 3600s);
  CHECK(watch.look(wall + 3s, start + 3s) == -3600s);
  CHECK_FALSE(watch.look(wall + 4s + 1900ms, start + 4s).has_value());
  // A day's standstill at 500 ppm makes 43 s.
  CHECK_FALSE(watch.look(wall + 24h + 45s, start + 24h + 4s).has_value());
}

}  // namespace
}  // namespace gley::daemon

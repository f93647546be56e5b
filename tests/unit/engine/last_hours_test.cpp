#include "daemon/engine/fields/last_hours.hpp"

#include "daemon/engine/fields/farm_state.hpp"
#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

TEST_CASE("a station heard for minutes tells that it rained, and not yet that it did not") {
  FarmStore store;
  const FarmConfig farm = yard_farm();
  FarmState state(farm, store.database);
  const Instant first = sys_days{2024y / 5 / 13} + hours{9};
  const auto told = [&](int minute, double rain_mm) {
    const Instant time = first + minutes{minute};
    store.put(rain_reading("yard", time, rain_mm), time);
    state.catch_up();
    state.look(time + seconds{30});
    return state.last_hours().dry_h("yard");
  };
  CHECK_FALSE(told(0, 0.0));
  CHECK_FALSE(told(10, 0.0));
  CHECK(told(20, 1.2) == 0.0);
  CHECK(told(30, 0.0) == 0.0);
}

}  // namespace
}  // namespace gley::daemon

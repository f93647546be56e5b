#include "tests/unit/engine/kept_farm.hpp"

// A millimetre an hour, so that a day's rain is its hours. Changes of the clocks in 2026: Directive
// 2000/84/EC's rule, the last Sundays of March and October at 01:00 UTC.

namespace gley::daemon {
namespace {

using namespace std::chrono;

/// Rain by day of a station that sends at every full hour of five days about `middle`: amounts, or
/// a counter that stands at 1000 when it begins. Days at the ends are left out.
std::vector<double> rain_around(sys_days middle, ReadingForm form) {
  FarmConfig in_london = yard_farm();
  in_london.time_zone = "Europe/London";
  KeptFarm kept(in_london);
  int hour = 0;
  for (Instant time = middle - days{2}; time <= middle + days{3}; time += 1h, ++hour) {
    const double value = form == ReadingForm::counter ? 1000.0 + hour : 1.0;
    kept.store.put(rain_reading("yard", time, value, form), time);
    kept.keeper.catch_up();  // at every reading, as it goes on a farm
  }
  const std::vector<double> amounts = kept.rain_by_day(middle + days{1});
  return {amounts.end() - 3, amounts.end()};
}

using Amounts = std::vector<double>;

TEST_CASE("hours of rain collect into a day of 23 hours and one of 25, none lost or doubled") {
  const ReadingForm form = GENERATE(ReadingForm::interval, ReadingForm::counter);
  CHECK(rain_around(2026y / 3 / 29, form) == Amounts{24, 23, 24});
  CHECK(rain_around(2026y / 10 / 25, form) == Amounts{24, 25, 24});
}

TEST_CASE("the 29th of February collects its own hours") {
  const ReadingForm form = GENERATE(ReadingForm::interval, ReadingForm::counter);
  CHECK(rain_around(2028y / 2 / 29, form) == Amounts{24, 24, 24});
  CHECK(rain_around(2028y / 2 / 28, form) == Amounts{24, 24, 24});
}

}  // namespace
}  // namespace gley::daemon

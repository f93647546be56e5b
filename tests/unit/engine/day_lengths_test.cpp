#include <catch2/catch.hpp>

#include "daemon/engine/day_keeper.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/unit/scratch_directory.hpp"

// A millimetre an hour, so that a day's rain is its hours. Changes of the clocks in 2026: Directive
// 2000/84/EC's rule, the last Sundays of March and October at 01:00 UTC.

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

FarmConfig farm_in_london() {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "Europe/London";
  farm.stations.emplace_back().id = "yard";
  FieldConfig& field = farm.fields.emplace_back();
  field.id = "top";
  field.stations = {"yard"};
  field.soil = SoilByClass{"clay loam"};
  field.crop = std::string("grass");
  return farm;
}

Reading rain(ReadingForm form, Instant time, double value) {
  return {.station = "yard",
          .quantity = Quantity::rain,
          .form = form,
          .source = "weather/yard/rain",
          .time = time,
          .time_source = TimeSource::payload,
          .value = value};
}

/// Rain by day of a station that sends at every full hour of five days about `middle`: amounts, or
/// a counter that stands at 1000 when it begins. Days at the ends are left out.
std::vector<double> rain_around(sys_days middle, ReadingForm form) {
  const ScratchDirectory directory;
  const FarmConfig config = farm_in_london();
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox{directory / "farm.db", Durability::process};
  FieldBook book{config};
  DayKeeper keeper{config, database, book};
  int hour = 0;
  for (Instant time = middle - days{2}; time <= middle + days{3}; time += 1h, ++hour) {
    const double value = form == ReadingForm::counter ? 1000.0 + hour : 1.0;
    inbox.store({{{rain(form, time, value), ReadingStatus::used}}, {}}, time);
    keeper.catch_up();  // at every reading, as it goes on a farm
  }
  book.close(middle + days{1});
  std::vector<double> amounts;
  for (const model::StationDay& day : book.weather(0).days())
    amounts.push_back(day.weather.rain_mm.value_or(-1.0));
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

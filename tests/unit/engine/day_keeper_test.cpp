#include "daemon/engine/fields/day_keeper.hpp"

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days monday = 2024y / 5 / 13;
const sys_days sunday = monday + days{6};

struct Yard {
  KeptFarm farm{yard_farm()};

  void put(const Reading& reading) { farm.store.put(reading, monday + days{20}); }
  void put_rain(ReadingForm form, Instant time, double value) {
    put(rain_reading("yard", time, value, form));
  }
  [[nodiscard]] std::vector<double> week_of_rain() { return farm.rain_by_day(sunday); }
};

using Amounts = std::vector<double>;

TEST_CASE("a late count takes from the next day that was counted, however long after") {
  Yard yard;
  yard.put_rain(ReadingForm::counter, monday + 10h, 100.0);
  yard.put_rain(ReadingForm::counter, monday + 12h, 110.0);
  yard.put_rain(ReadingForm::counter, monday + days{4} + 12h, 130.0);
  CHECK(yard.week_of_rain() == Amounts{10, 0, 0, 0, 20, 0, 0});
  yard.put_rain(ReadingForm::counter, monday + days{1} + 12h, 125.0);
  CHECK(yard.week_of_rain() == Amounts{10, 15, 0, 0, 5, 0, 0});
}

TEST_CASE("a count at the day's start closes the day before and starts the day") {
  Yard yard;
  yard.put_rain(ReadingForm::counter, monday + 10h, 100.0);
  yard.put_rain(ReadingForm::counter, monday + days{1}, 104.0);
  yard.put_rain(ReadingForm::counter, monday + days{1} + 1h, 105.0);
  CHECK(yard.week_of_rain() == Amounts{4, 1, 0, 0, 0, 0, 0});
}

TEST_CASE("a rate goes on over the day's start, whichever side comes last") {
  Yard yard;
  yard.put_rain(ReadingForm::rate, monday + days{1} + 30min, 6.0);
  yard.put_rain(ReadingForm::rate, monday + 23h, 2.0);
  CHECK(yard.week_of_rain() == Amounts{6, 0, 0, 0, 0, 0});  // a lone rate makes no first day
  yard.put_rain(ReadingForm::rate, monday + 23h + 45min, 4.0);
  CHECK(yard.week_of_rain() == Amounts{3, 4.5, 0, 0, 0, 0, 0});
}

TEST_CASE("a loaded day stands until live readings make it complete") {
  Yard yard;
  LoadedDays(yard.farm.store.database)
      .put("yard", {{monday, {.rain_mm = 9.0, .tmin_c = 1.0, .tmax_c = 2.0}}}, Instant{monday});
  FieldBook book(yard.farm.config);
  DayKeeper keeper(yard.farm.config, yard.farm.store.database, book);
  yard.put_rain(ReadingForm::interval, monday + 1h, 1.5);
  keeper.catch_up();
  CHECK(KeptFarm::rain_of(book, sunday).front() == 9.0);
  yard.put(air_reading("yard", monday + 2h, 3.0));
  yard.put(air_reading("yard", monday + 20h, 8.0));
  keeper.catch_up();
  CHECK(KeptFarm::rain_of(book, sunday).front() == 1.5);
}

}  // namespace
}  // namespace gley::daemon

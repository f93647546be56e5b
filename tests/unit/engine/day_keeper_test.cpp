#include "daemon/engine/day_keeper.hpp"

#include <catch2/catch.hpp>

#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/unit/scratch_directory.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

const sys_days monday = 2024y / 5 / 13;

FarmConfig farm() {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.4;
  farm.time_zone = "UTC";
  farm.stations.emplace_back().id = "yard";
  FieldConfig& field = farm.fields.emplace_back();
  field.id = "top";
  field.stations = {"yard"};
  field.soil = SoilByClass{"clay loam"};
  field.crop = std::string("grass");
  return farm;
}

/// A store, and what a keeper makes of it.
struct Kept {
  ScratchDirectory directory;
  FarmConfig config = farm();
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox{directory / "farm.db", Durability::process};
  FieldBook book{config};
  DayKeeper keeper{config, database, book};

  void put(ReadingForm form, Instant time, double value) {
    const Reading reading{.station = "yard",
                          .quantity = Quantity::rain,
                          .form = form,
                          .source = "weather/yard/rain",
                          .time = time,
                          .time_source = TimeSource::payload,
                          .value = value};
    inbox.store({{{reading, ReadingStatus::used}}, {}}, monday + days{20});
  }

  [[nodiscard]] static std::vector<double> rain(FieldBook& book) {
    book.close(monday + days{6});
    std::vector<double> amounts;
    for (const model::StationDay& day : book.weather(0).days())
      amounts.push_back(day.weather.rain_mm.value_or(-1.0));
    return amounts;
  }

  /// Rain of each day as kept, checked against what a keeper that starts now makes of the store.
  [[nodiscard]] std::vector<double> rain_by_day() {
    keeper.catch_up();
    const std::vector<double> kept = rain(book);
    FieldBook fresh_book(config);
    const DayKeeper fresh(config, database, fresh_book);
    CHECK(kept == rain(fresh_book));
    return kept;
  }
};

using Amounts = std::vector<double>;

TEST_CASE("a late count takes from the next day that was counted, however long after") {
  Kept kept;
  kept.put(ReadingForm::counter, monday + 10h, 100.0);
  kept.put(ReadingForm::counter, monday + 12h, 110.0);
  kept.put(ReadingForm::counter, monday + days{4} + 12h, 130.0);
  CHECK(kept.rain_by_day() == Amounts{10, 0, 0, 0, 20, 0, 0});
  kept.put(ReadingForm::counter, monday + days{1} + 12h, 125.0);
  CHECK(kept.rain_by_day() == Amounts{10, 15, 0, 0, 5, 0, 0});
}

TEST_CASE("a count at the day's start closes the day before and starts the day") {
  Kept kept;
  kept.put(ReadingForm::counter, monday + 10h, 100.0);
  kept.put(ReadingForm::counter, monday + days{1}, 104.0);
  kept.put(ReadingForm::counter, monday + days{1} + 1h, 105.0);
  CHECK(kept.rain_by_day() == Amounts{4, 1, 0, 0, 0, 0, 0});
}

TEST_CASE("a rate goes on over the day's start, whichever side comes last") {
  Kept kept;
  kept.put(ReadingForm::rate, monday + days{1} + 30min, 6.0);
  kept.put(ReadingForm::rate, monday + 23h, 2.0);
  CHECK(kept.rain_by_day() == Amounts{6, 0, 0, 0, 0, 0});  // a lone rate makes no first day
  kept.put(ReadingForm::rate, monday + 23h + 45min, 4.0);
  CHECK(kept.rain_by_day() == Amounts{3, 4.5, 0, 0, 0, 0, 0});
}

TEST_CASE("a loaded day stands until live readings make it complete") {
  Kept kept;
  LoadedDays(kept.database)
      .put("yard", {{monday, {.rain_mm = 9.0, .tmin_c = 1.0, .tmax_c = 2.0}}}, Instant{monday});
  FieldBook book(kept.config);
  DayKeeper keeper(kept.config, kept.database, book);
  kept.put(ReadingForm::interval, monday + 1h, 1.5);
  keeper.catch_up();
  CHECK(Kept::rain(book).front() == 9.0);
  for (const auto& [after, celsius] : {std::pair{2h, 3.0}, std::pair{20h, 8.0}}) {
    const Reading air{.station = "yard",
                      .quantity = Quantity::temperature,
                      .form = ReadingForm::instant,
                      .source = "weather/yard/air",
                      .time = monday + after,
                      .time_source = TimeSource::payload,
                      .value = celsius};
    kept.inbox.store({{{air, ReadingStatus::used}}, {}}, monday + days{20});
  }
  keeper.catch_up();
  CHECK(Kept::rain(book).front() == 1.5);
}

}  // namespace
}  // namespace gley::daemon

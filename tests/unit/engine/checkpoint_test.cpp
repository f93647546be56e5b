#include "daemon/engine/fields/checkpoint.hpp"

#include "tests/unit/engine/kept_farm.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono;

const sys_days first = 2023y / 3 / 1;

FarmConfig farm() {
  FarmConfig farm = farm_of_stations({"yard", "hill"});
  add_field(farm, "top", {"yard", "hill"});
  add_field(farm, "clay", {"hill"}).crop = std::string("winter wheat");
  for (FieldConfig& field : farm.fields) field.soil = SoilByClass{"clay"};
  return farm;
}

DayRecord day_number(int n) {
  DayRecord record;
  record.weather = {.rain_mm = n % 4 == 0 ? 9.0 : 0.0,
                    .tmin_c = 3.0 + n % 5,
                    .tmax_c = 12.0 + n % 7,
                    .rh_mean_pct = 75.0};
  record.complete = true;
  return record;
}

void put_days(FieldBook& book, int from, int to) {
  for (int n = from; n < to; ++n) {
    if (n % 9 != 0) book.put("yard", first + days{n}, day_number(n));
    book.put("hill", first + days{n + 3}, day_number(3 * n));
  }
}

std::string all_days(const FieldBook& book) {
  return book.days_csv(0, {}) + book.days_csv(1, {});
}

TEST_CASE("a book that goes on from a checkpoint tells what one with all days tells") {
  const FarmConfig config = farm();
  FieldBook straight(config);
  put_days(straight, 0, 400);
  straight.close(first + days{350});
  const auto kept = straight.checkpoint();
  REQUIRE(kept);

  FieldBook later(config);
  later.restore(*kept);
  CHECK(all_days(later) == all_days(straight));
  CHECK(later.checkpoint() == kept);
  // Days that come late, the first day of all, and days that end.
  for (const int late : {349, 340, 200, -5}) {
    INFO("day " << late);
    FieldBook went_on(config);
    went_on.restore(*kept);
    FieldBook fresh(config);
    put_days(fresh, 0, 400);
    for (FieldBook* book : {&went_on, &fresh}) {
      book->put("hill", first + days{late}, {.weather = {.rain_mm = 31.0}, .flags = {}});
      book->close(first + days{390});
    }
    CHECK(all_days(went_on) == all_days(fresh));
    for (const std::size_t field : {0U, 1U})
      CHECK(went_on.history(field).last()->evening == fresh.history(field).last()->evening);
  }
}

TEST_CASE("a book gives no checkpoint before its days are closed") {
  const FarmConfig config = farm();
  FieldBook book(config);
  CHECK_FALSE(book.checkpoint());
  put_days(book, 0, 20);
  CHECK_FALSE(book.checkpoint());
  book.close(first + days{10});
  CHECK(book.checkpoint());  // what is on record of days to come does not matter
  book.put("yard", first + days{10}, day_number(5));
  CHECK_FALSE(book.checkpoint());
}

Checkpoint some_checkpoint() {
  const FarmConfig config = farm();
  FieldBook book(config);
  put_days(book, 0, 60);
  book.close(first + days{50});
  return {.seen_id = 77, .given = 5, .book = book.checkpoint().value()};
}

TEST_CASE("a checkpoint's bytes read back to it") {
  const Checkpoint checkpoint = some_checkpoint();
  CHECK(checkpoint_from(bytes_of(checkpoint)) == checkpoint);
  CHECK(checkpoint_from(bytes_of(Checkpoint{})) == Checkpoint{});
}

TEST_CASE("damaged bytes make no checkpoint") {
  const std::string whole = bytes_of(some_checkpoint());
  CHECK_FALSE(checkpoint_from(""));
  for (std::size_t at = 0; at < whole.size(); at += 101) {
    INFO("byte " << at);
    std::string damaged = whole;
    damaged[at] = static_cast<char>(damaged[at] ^ 4);
    CHECK_FALSE(checkpoint_from(damaged));
    CHECK_FALSE(checkpoint_from(whole.substr(0, at)));
  }
  CHECK_FALSE(checkpoint_from(whole + "x"));
}

}  // namespace
}  // namespace gley::daemon

#include "daemon/store/reading_store.hpp"

#include <signal.h>
#include <sys/resource.h>

#include <catch2/catch.hpp>

#include "daemon/store/store_error.hpp"
#include "tests/unit/store/farm_store.hpp"

using namespace gley::daemon;
using namespace std::chrono_literals;

namespace {

const Instant noon{std::chrono::sys_days{std::chrono::year{2026} / 3 / 1} + 12h};

struct Store {
  FarmStore farm;
  ReadingStore readings{farm.database};

  Inbox::Stored put(const Reading& reading, ReadingStatus status = ReadingStatus::used) {
    return farm.put(reading, noon, status);
  }
  std::vector<Reading> all() { return readings.between("yard", {noon - 24h, noon + 24h}); }
  [[nodiscard]] std::int64_t rows(ReadingStatus status) const {
    return farm.database.number("SELECT count(*) FROM reading WHERE status = " +
                                std::to_string(static_cast<int>(status)));
  }
};

Reading rain(Instant time, double value) {
  return rain_reading("yard", time, value);
}

Reading timeless(Instant arrival, double value) {
  auto reading = rain(arrival, value);
  reading.time_source = TimeSource::arrival;
  return reading;
}

}  // namespace

TEST_CASE("a_reading_comes_back_as_it_was_stored") {
  Store store;
  auto reading = rain(noon, 0.1 + 0.2);
  reading.source = "weather/yard#urn:dev:1:rain \xc3\xa9";
  store.put(reading);
  CHECK(store.all() == std::vector<Reading>{reading});
  const auto rows = store.readings.after(0, 10);
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].reading == reading);
  CHECK(rows[0].status == ReadingStatus::used);
  CHECK(rows[0].received == noon);
  CHECK(rows[0].id == store.readings.last_id());
}

TEST_CASE("a_repeated_reading_counts_once") {
  Store store;
  CHECK(store.put(rain(noon, 0.2)).added == 1);
  const auto again = store.put(rain(noon, 0.2));
  CHECK(again.added == 0);
  CHECK(again.repeated == 1);
  // Also to another process's eyes, with nothing remembered.
  Inbox fresh(store.farm.directory / "farm.db", Durability::process);
  CHECK(fresh.store({{{rain(noon, 0.2), ReadingStatus::used}}, {}}, noon).repeated == 1);
  CHECK(store.all().size() == 1);
}

TEST_CASE("another_value_at_the_same_time_is_a_correction") {
  Store store;
  store.put(rain(noon, 2.0));
  store.put(rain(noon, 0.2));
  store.put(rain(noon + 1h, 0.4));
  CHECK(store.all() == std::vector<Reading>{rain(noon, 0.2), rain(noon + 1h, 0.4)});
  CHECK(store.readings.after(0, 10).size() == 3);
  CHECK(store.rows(ReadingStatus::used) == 3);
}

TEST_CASE("a_correction_that_is_taken_back_leaves_the_first_value") {
  Store store;
  store.put(rain(noon, 2.0));
  store.put(rain(noon, 0.2));
  const auto seen = store.readings.last_id();
  CHECK(store.put(rain(noon, 2.0)).added == 1);
  CHECK(store.all() == std::vector<Reading>{rain(noon, 2.0)});
  CHECK(store.readings.after(seen, 10).size() == 1);
  CHECK(store.put(rain(noon, 2.0)).repeated == 1);
}

TEST_CASE("sources_at_one_time_do_not_correct_each_other") {
  Store store;
  auto other = rain(noon, 0.4);
  other.source = "weather/yard/rain2";
  store.put(rain(noon, 0.2));
  store.put(other);
  CHECK(store.all() == std::vector<Reading>{rain(noon, 0.2), other});
}

TEST_CASE("the_order_of_arrival_does_not_matter") {
  Store forward;
  Store backward;
  auto warm = rain(noon, 12.0);
  warm.quantity = Quantity::temperature;
  warm.form = ReadingForm::instant;
  const std::vector<Reading> readings{rain(noon - 2h, 0.2), rain(noon, 0.4), warm,
                                      rain(noon + 1h, 0.6)};
  for (auto it = readings.begin(); it != readings.end(); ++it) forward.put(*it);
  for (auto it = readings.rbegin(); it != readings.rend(); ++it) backward.put(*it);
  CHECK(forward.all() == readings);
  CHECK(backward.all() == readings);
}

TEST_CASE("a_span_holds_its_start_and_not_its_end") {
  Store store;
  store.put(rain(noon, 0.2));
  store.put(rain(noon + 1h, 0.4));
  CHECK(store.readings.between("yard", {noon, noon + 1h}).size() == 1);
  CHECK(store.readings.between("yard", {noon + 1ms, noon + 1h + 1ms}).size() == 1);
  CHECK(store.readings.between("brook", {noon, noon + 2h}).empty());
}

TEST_CASE("readings_kept_aside_are_stored_and_do_not_count") {
  Store store;
  store.put(rain(noon, 0.2), ReadingStatus::too_old);
  store.put(rain(noon, 0.4), ReadingStatus::in_the_future);
  store.put(timeless(noon, 0.6), ReadingStatus::time_unknown);
  CHECK(store.all().empty());
  CHECK_FALSE(store.readings.extent("yard").has_value());
  CHECK(store.readings.after(0, 10).size() == 3);
  CHECK(store.rows(ReadingStatus::too_old) == 1);
  CHECK(store.rows(ReadingStatus::in_the_future) == 1);
  CHECK(store.rows(ReadingStatus::time_unknown) == 1);
  CHECK(store.rows(ReadingStatus::used) == 0);
}

TEST_CASE("a_reading_kept_aside_counts_if_it_comes_again_in_good_time") {
  Store store;
  store.put(rain(noon, 0.2), ReadingStatus::in_the_future);
  CHECK(store.put(rain(noon, 0.2)).added == 1);
  CHECK(store.all().size() == 1);
}

TEST_CASE("readings_without_a_time_in_one_millisecond_are_all_kept") {
  Store store;
  for (int i = 0; i < 100; ++i) store.put(timeless(noon, 0.2));
  CHECK(store.all().size() == 100);
  // A clock set back is believed: later readings do not go on queueing behind the old time.
  store.farm.put(timeless(noon - 1h, 0.2), noon - 1h);
  CHECK(store.all().front().time == noon - 1h);
}

TEST_CASE("rows_are_read_on_from_where_the_last_reader_stopped") {
  Store store;
  for (int i = 0; i < 10; ++i) store.put(rain(noon + i * 1min, 0.2));
  const auto first = store.readings.after(0, 4);
  REQUIRE(first.size() == 4);
  const auto rest = store.readings.after(first.back().id, 100);
  REQUIRE(rest.size() == 6);
  CHECK(rest.front().reading.time == noon + 4min);
  CHECK(store.readings.after(rest.back().id, 100).empty());
}

TEST_CASE("the_count_before_a_day_is_found") {
  Store store;
  auto count = rain(noon - 48h, 100.0);
  count.form = ReadingForm::counter;
  store.put(count);
  count.time = noon - 1h;
  count.value = 101.0;
  store.put(count);
  const auto before = count;
  count.time = noon;
  store.put(count);
  store.put(rain(noon - 1min, 0.2));
  CHECK(store.readings.last_before("yard", noon) == std::vector<Reading>{before});
  CHECK(store.readings.last_before("yard", noon - 100h).empty());
}

TEST_CASE("first_and_last_reading_are_known") {
  Store store;
  auto warm = rain(noon - 3h, 12.0);
  warm.quantity = Quantity::temperature;
  store.put(rain(noon, 0.2));
  store.put(rain(noon + 1h, 0.2));
  store.put(warm);
  const auto extent = store.readings.extent("yard");
  REQUIRE(extent.has_value());
  CHECK(extent->first == noon - 3h);
  CHECK(extent->last == noon + 1h);
}

namespace {

/// Lets no file grow beyond a size while it lives: a disk that is full.
class FullDisk {
 public:
  explicit FullDisk(rlim_t largest_file) {
    ::signal(SIGXFSZ, SIG_IGN);
    ::getrlimit(RLIMIT_FSIZE, &before_);
    const rlimit limit{largest_file, before_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  }
  ~FullDisk() { ::setrlimit(RLIMIT_FSIZE, &before_); }
  FullDisk(const FullDisk&) = delete;
  FullDisk& operator=(const FullDisk&) = delete;

 private:
  rlimit before_{};
};

}  // namespace

TEST_CASE("on_a_full_disk_a_message_is_stored_whole_later_or_not_at_all") {
  Store store;
  store.put(rain(noon, 0.2));
  DecodedMessage message;
  for (int i = 1; i <= 2000; ++i) {
    message.readings.push_back({rain(noon + i * 1s, 0.2), ReadingStatus::used});
  }
  message.readings.back().reading.source = "another source";
  {
    const FullDisk full(std::filesystem::file_size(store.farm.directory / "farm.db-wal"));
    bool may_pass = false;
    try {
      store.farm.inbox.store(message, noon);
    } catch (const StoreError& error) {
      may_pass = error.may_pass();
      CHECK(std::string(error.what()).find("farm.db") != std::string::npos);
    }
    CHECK(may_pass);
    CHECK(store.all().size() == 1);
  }
  CHECK(store.farm.inbox.store(message, noon).added == 2000);
  CHECK(store.all().size() == 2001);
}

TEST_CASE("a_writer_waits_for_another_and_readers_do_not_wait") {
  Store store;
  store.put(rain(noon, 0.2));
  Transaction transaction(store.farm.database);
  store.farm.database.execute("DELETE FROM derived");
  ReadingStore other(store.farm.database);
  CHECK(other.after(0, 10).size() == 1);
  transaction.commit();
  CHECK(store.put(rain(noon + 1h, 0.2)).added == 1);
}

#include <sys/stat.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <random>
#include <set>
#include <thread>

#include "daemon/readings/farm_day.hpp"
#include "daemon/store/reading_store.hpp"
#include "daemon/store/schema.hpp"
#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/senml_text.hpp"

using namespace gley::tests;
using namespace gley::daemon;
using namespace std::chrono;

namespace {

const sys_seconds first_time = sys_days{2018y / 3 / 1};

/// Reading number n: ten minutes' rain or, every other one, a temperature. It rises and falls by
/// 0.2 degC at a time, for a leap would be doubted.
struct Numbered {
  int n;
  [[nodiscard]] bool is_rain() const { return n % 2 == 0; }
  [[nodiscard]] sys_seconds time() const { return first_time + minutes{10} * n; }
  [[nodiscard]] double value() const {
    return is_rain() ? (n % 50) / 100.0 : 5.0 + std::abs(n % 194 - 97) / 10.0;
  }
  [[nodiscard]] std::string pack() const {
    return senml_pack({{is_rain() ? "rain" : "temperature", time(), value()}}) + '\n';
  }
};

/// Publishes numbered readings over one connection, about 500 a second, until told to stop.
class Sender {
 public:
  Sender(std::uint16_t port, const std::filesystem::path& pipe) {
    if (::mkfifo(pipe.c_str(), 0600) != 0) throw std::runtime_error("no pipe for the sender");
    // mosquitto_pub -l reads its standard input; only a shell gives it a pipe there.
    client_ = std::make_unique<Process>(std::vector<std::string>{
        "/bin/sh", "-c",
        "exec mosquitto_pub -h 127.0.0.1 -p " + std::to_string(port) +
            " -V 5 -q 1 -l -t weather/yard/pack < '" + pipe.string() + "'"});
    thread_ = std::thread([this, pipe] { run(pipe); });
  }
  ~Sender() {
    stopping_ = true;
    if (thread_.joinable()) thread_.join();
  }

  [[nodiscard]] int sent() const { return sent_; }

  /// Sends the rest and returns how many were sent in all, each acknowledged by the broker.
  int finish() {
    stopping_ = true;
    thread_.join();
    const auto code = client_->wait(minutes(2));
    if (code != 0) throw std::runtime_error("mosquitto_pub did not send everything");
    return sent_;
  }

 private:
  void run(const std::filesystem::path& pipe) {
    std::ofstream out(pipe);
    auto next = steady_clock::now();
    while (!stopping_) {
      for (int i = 0; i < 5; ++i) out << Numbered{sent_++}.pack();
      out.flush();
      std::this_thread::sleep_until(next += milliseconds(10));  // the rate, not a wait
    }
  }

  std::unique_ptr<Process> client_;
  std::atomic<bool> stopping_ = false;
  std::atomic<int> sent_ = 0;
  std::thread thread_;
};

FarmText farm_for(const Broker& broker) {
  FarmText farm(broker.port());
  farm.oldest_days = 100000;
  farm.fields = field_text("top") + field_text("clay", {.soil = "clay",
                                                        .drainage = "slow",
                                                        .crop = "winter wheat",
                                                        .more = "pipe_drains = true"});
  return farm;
}

std::int64_t rows_in(const std::filesystem::path& store) {
  if (!std::filesystem::exists(store)) return 0;
  Database database(store, Durability::process);
  if (database.number("SELECT count(*) FROM sqlite_master WHERE name = 'reading'") == 0) return 0;
  return database.number("SELECT count(*) FROM reading");
}

/// Kills the daemon at a random moment of its life: in half of the lives after it has taken
/// readings in, in the others whenever it comes, its start included.
void live_and_die(Gleyd& gleyd, std::mt19937& random, bool after_readings) {
  gleyd.launch();
  if (after_readings) {
    const std::int64_t before = rows_in(gleyd.store());
    if (!eventually([&] { return rows_in(gleyd.store()) > before; }))
      throw std::runtime_error("no reading arrived:\n" + gleyd.log());
  }
  const auto left = milliseconds(std::uniform_int_distribution<int>(0, 250)(random));
  // A moment chosen by chance is what the test is about.
  std::this_thread::sleep_for(left);
  gleyd.stop(SIGKILL);
}

/// The weather of the whole days that the readings make, from their numbers alone.
std::string weather_of(int readings) {
  struct Day {
    double rain_mm = 0.0;
    std::optional<double> tmin_c, tmax_c;
    int temperatures = 0;
    bool has_rain = false;
  };
  std::map<sys_days, Day> days;
  for (int n = 0; n < readings; ++n) {
    const Numbered reading{n};
    const double value = reading.value();
    if (reading.is_rain()) {
      // An amount stamped at midnight fell on the day before.
      Day& day = days[floor<std::chrono::days>(reading.time() - seconds{1})];
      day.rain_mm += value;
      day.has_rain = true;
    } else {
      Day& day = days[floor<std::chrono::days>(reading.time())];
      day.tmin_c = std::min(day.tmin_c.value_or(value), value);
      day.tmax_c = std::max(day.tmax_c.value_or(value), value);
      ++day.temperatures;
    }
  }
  // They end within a day, which is flagged as partial: a weather file never is.
  days.erase(std::prev(days.end()));
  std::string text = "date,rain_mm,tmin_c,tmax_c\n";
  for (const auto& [date, day] : days) {
    text += date_text(date) + "," + (day.has_rain ? number_text(day.rain_mm) : "");
    if (day.temperatures > 1)
      text += "," + number_text(*day.tmin_c) + "," + number_text(*day.tmax_c) + "\n";
    else
      text += ",,\n";
  }
  return text;
}

/// How often each number stands in the store, as words; empty if all stand there once.
std::string fault_in_store(const std::filesystem::path& file, int sent) {
  Database database(file, Durability::process);
  ReadingStore store(database);
  std::map<sys_seconds, int> found;
  std::int64_t last = 0;
  for (;;) {
    const auto rows = store.after(last, 10000);
    for (const StoredReading& row : rows) {
      last = row.id;
      const auto at = floor<seconds>(row.reading.time);
      const Numbered number{static_cast<int>((at - first_time) / minutes{10})};
      const bool right = number.time() == row.reading.time && number.value() == row.reading.value &&
                         number.is_rain() == (row.reading.quantity == Quantity::rain) &&
                         row.status == ReadingStatus::used;
      if (!right) return "a reading that was never sent, at row " + std::to_string(row.id);
      if (++found[at] > 1) return "number " + std::to_string(number.n) + " stands twice";
    }
    if (rows.size() < 10000) break;
  }
  for (int n = 0; n < sent; ++n)
    if (found.count(Numbered{n}.time()) == 0) return "number " + std::to_string(n) + " is lost";
  return static_cast<int>(found.size()) == sent ? "" : "more readings than were sent";
}

}  // namespace

TEST_CASE("killed_at_any_moment_no_reading_is_lost_or_counted_twice") {
  const bool long_run = std::getenv("GLEY_LONG") != nullptr;
  const int kills = long_run ? 200 : 20;
  const auto seed = std::random_device{}();
  WARN("kill_test: seed " << seed << ", " << kills << " kills");
  std::mt19937 random(seed);

  const Broker broker({"max_queued_messages 1000000"});
  Gleyd gleyd(farm_for(broker));
  gleyd.start_online();  // the session stands from here on
  gleyd.stop(SIGKILL);
  Sender sender(broker.port(), gleyd.directory() / "pipe");
  for (int i = 0; i < kills; ++i) live_and_die(gleyd, random, i % 2 == 0);

  // While no daemon runs, the broker keeps for its session what is sent.
  const int sent_by_then = sender.sent();
  REQUIRE(eventually([&] { return sender.sent() > sent_by_then + 500; }));
  const int sent = sender.finish();
  REQUIRE(rows_in(gleyd.store()) < sent);

  gleyd.start();
  REQUIRE(eventually(minutes(3), [&] { return rows_in(gleyd.store()) >= sent; }));
  REQUIRE(fault_in_store(gleyd.store(), sent) == "");

  const auto weather = gleyd.write("weather.csv", weather_of(sent));
  for (const std::string id : {"top", "clay"}) {
    const std::string want = replayed_days(gleyd, weather, id);
    // Rain stamped at midnight, if that is the last, fell on the day before.
    const sys_days last_day = floor<days>(Numbered{sent - 1}.time() - seconds{1});
    const std::string to = date_text(last_day - days{1});
    std::string found;
    (void)eventually([&] {
      const auto live = gleyd.get("/api/field/" + id + "/days.csv?to=" + to).body;
      return (found = difference(live, want)).empty();
    });
    INFO(id);
    CHECK(found == "");
  }
  WARN("kill_test: " << sent << " readings sent, 0 lost, 0 doubled");
}

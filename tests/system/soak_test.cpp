#include <catch2/catch.hpp>
#include <cstdlib>
#include <sstream>

#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/system/faults.hpp"
#include "tests/system/senml_text.hpp"
#include "tests/system/year_of_readings.hpp"

using namespace gley::tests;
using gley::daemon::date_text;
using gley::daemon::number_text;
using namespace std::chrono;

namespace {

/// The year's readings by the end of the step in which a station would send them.
std::map<sys_seconds, nlohmann::json> by_step(const std::vector<std::string>& packs) {
  std::map<sys_seconds, nlohmann::json> steps;
  for (const std::string& pack : packs)
    for (const nlohmann::json& record : nlohmann::json::parse(pack)) {
      const sys_seconds time{seconds{record["t"].get<std::int64_t>()}};
      // Steps are counted from the epoch, which began at midnight.
      const auto number = ceil<duration<int, std::ratio<3 * 3600>>>(time.time_since_epoch());
      steps[sys_seconds{number}].push_back(record);
    }
  return steps;
}

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool memory_is_the_sanitizers = true;
#else
constexpr bool memory_is_the_sanitizers = false;
#endif

/// Rain and air by three hours for five days, as a SenML pack.
std::string forecast_from(sys_seconds now, int which) {
  std::vector<SenmlValue> values;
  for (int h = 3; h <= 120; h += 3) {
    values.push_back({"rain", now + hours{h}, (which + h) % 7 == 0 ? 1.2 : 0.0, "mm"});
    values.push_back({"temperature", now + hours{h}, 9.0 + (h % 24) / 6.0, "Cel"});
  }
  return senml_pack(values);
}

/// A line of /proc/PID/status, MiB.
double memory_mib(const Gleyd& gleyd, const std::string& name) {
  std::istringstream lines(read_file("/proc/" + std::to_string(gleyd.pid()) + "/status"));
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with(name + ":")) return std::stod(line.substr(name.size() + 1)) / 1024.0;
  throw std::runtime_error("no memory of the daemon to be seen");
}

long open_files(const Gleyd& gleyd) {
  const std::filesystem::directory_iterator all("/proc/" + std::to_string(gleyd.pid()) + "/fd");
  return std::distance(begin(all), end(all));
}

FarmText farm_for(const Broker& broker) {
  FarmText farm(broker.port());
  farm.more = forecast_text + drill_text + slurry_text;
  farm.fields = field_text("lawn") + field_text("wheat", {.soil = "clay",
                                                          .drainage = "slow",
                                                          .crop = "winter wheat",
                                                          .more = "pipe_drains = true"});
  return farm;
}

/// A daemon that lives through a year, its clock set forward by three hours at a time.
struct Soak {
  Soak() : gleyd(farm_for(broker)), faults(gleyd) {}

  void set_clock(sys_seconds to) { faults.clock_ahead(to - floor<seconds>(system_clock::now())); }

  void pass_step(sys_seconds now, const nlohmann::json& records) {
    set_clock(now + seconds{30});
    broker.publish("weather/yard/pack", records.dump());
    stored += static_cast<double>(records.size());
    if (!gleyd.eventually_stored(stored)) throw std::runtime_error("not stored:\n" + gleyd.log());
  }

  /// What a farm's day brings besides: forecasts, pages, a display, rubbish; each month more.
  void pass_day(sys_seconds now, int day) {
    for (const char* page : {"/", "/field/wheat", "/api/board", "/metrics", "/windows.ics",
                             "/api/field/lawn/days.csv", "/no-such-page"})
      (void)gleyd.get(page);
    broker.publish("weather/forecast", forecast_from(now, day));
    broker.publish("weather/yard/rain", "rubbish " + std::to_string(day));
    RawClient display(gleyd.farm.http_port);
    display.send("GET /events HTTP/1.1\r\nHost: localhost\r\n\r\n");
    (void)display.read_until("\r\n\r\n");
    if (day % 30 == 29) pass_month();
  }

  void pass_month() {
    gleyd.reload();
    broker.stop(SIGKILL);
    broker.start();
    const bool back = eventually([&] { return gleyd.metric("gley_broker_connected") == 1.0; });
    if (!back) throw std::runtime_error("not connected again:\n" + gleyd.log());
  }

  Broker broker;
  Gleyd gleyd;
  Faults faults;
  double stored = 0.0;
};

}  // namespace

// In the long run a year, else some days. With a sanitizer memory is its own and not judged.
TEST_CASE("a_year_at_speed_takes_no_more_memory_at_its_end_than_at_its_start") {
  const int days_passed = std::getenv("GLEY_LONG") != nullptr ? 365 : 6;
  const gley::daemon::FarmCalendar calendar("UTC", minutes{0});
  const auto year = dublin_2018();
  int readings = 0;
  const auto steps = by_step(DayMessages(year, calendar).all(readings));
  const sys_days first = 2018y / 1 / 1;

  Soak soak;
  soak.set_clock(first);
  soak.gleyd.start_online();
  double settled_mib = 0.0;
  long settled_files = 0;
  std::string course;
  int day = 0;
  for (const auto& [now, records] : steps) {
    if (now > first + days{days_passed}) break;
    soak.pass_step(now, records);
    if (now != floor<days>(now) || now == first) continue;
    soak.pass_day(now, day++);
    if (day % 30 == 0 || day == days_passed)
      course += " " + number_text(std::round(memory_mib(soak.gleyd, "VmRSS") * 10.0) / 10.0);
    if (day != std::min(60, days_passed / 2)) continue;
    settled_mib = memory_mib(soak.gleyd, "VmRSS");
    settled_files = open_files(soak.gleyd);
  }
  const double end_mib = memory_mib(soak.gleyd, "VmRSS");
  WARN("soak: " << day << " days, " << soak.stored << " readings, resident memory MiB by month:"
                << course << ", at most " << memory_mib(soak.gleyd, "VmHWM"));
  CHECK(day == days_passed);
  CHECK(open_files(soak.gleyd) <= settled_files + 3);
  CHECK((memory_is_the_sanitizers || end_mib < settled_mib + 4.0));

  const std::string dates = "from=2018-01-01&to=" + date_text(first + days{days_passed - 2});
  const auto weather = soak.gleyd.write("weather.csv", weather_file(year));
  for (const std::string id : {"lawn", "wheat"}) {
    INFO(id);
    const Said said = soak.gleyd.command(
        "replay", {"--weather", weather.string(), "--out", (soak.gleyd.directory() / id).string(),
                   "--field", id, "--to", date_text(first + days{days_passed - 2})});
    REQUIRE(said.code == 0);
    const std::string want = read_file(soak.gleyd.directory() / id / "days.csv");
    CHECK(difference(soak.gleyd.get("/api/field/" + id + "/days.csv?" + dates).body, want) == "");
  }
}

#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>
#include <map>

#include "daemon/engine/outlook/outlook_desk.hpp"
#include "daemon/engine/watch/alert_watch.hpp"
#include "daemon/readings/weather_csv.hpp"
#include "daemon/store/inbox.hpp"
#include "daemon/store/schema.hpp"
#include "tests/coverage_text.hpp"
#include "tests/scratch_directory.hpp"

// A year of Dublin Airport's weather (Met Eireann, CC BY 4.0) told to the alerts' own code day by
// day, with a forecast each morning, for an invented farm of 30 fields.
namespace gley::daemon {
namespace {

using namespace std::chrono;
using tests::ScratchDirectory;

constexpr int forecast_days = 3;
constexpr int members = 4;

FarmConfig farm_of_30_fields() {
  FarmConfig farm;
  farm.id = "alder";
  farm.latitude = 53.428;
  farm.longitude = -6.241;
  farm.elevation_m = 71;
  farm.time_zone = "Europe/Dublin";
  farm.oldest_days = 100000;
  farm.stations.emplace_back().id = "yard";
  farm.forecast.emplace().topic = "forecast";
  farm.forecast->days = forecast_days;
  MachineConfig& drill = farm.machines.emplace_back();
  drill.id = "drill";
  drill.name = "Drill";
  drill.wheel_load_t = 2.6;
  drill.tyre_pressure_bar = 1.0;
  MaterialConfig& nitrogen = farm.materials.emplace_back();
  nitrogen.id = "nitrogen";
  const std::array soils{"sandy loam", "silt loam", "clay loam", "silty clay loam", "clay"};
  const std::array drains{DrainageClass::free, DrainageClass::moderate, DrainageClass::slow};
  const std::array crops{"grass", "winter wheat"};
  for (const char* soil : soils)
    for (const DrainageClass drainage : drains)
      for (const char* crop : crops) {
        FieldConfig& field = farm.fields.emplace_back();
        field.id = "f" + std::to_string(farm.fields.size());
        field.name = field.id;
        field.stations = {"yard"};
        field.soil = SoilByClass{soil};
        field.drainage = drainage;
        field.crop = std::string(crop);
      }
  return farm;
}

/// A steady stand-in for chance, 0..1, the same on every run.
double chance_at(int day, int member, int lead) {
  unsigned x = static_cast<unsigned>(day) * 2654435761u + static_cast<unsigned>(member) * 40503u +
               static_cast<unsigned>(lead) * 69069u;
  x ^= x >> 15;
  x *= 2246822519u;
  x ^= x >> 13;
  return static_cast<double>(x % 10000u) / 10000.0;
}

/// The year's days as a station would have sent them and a forecast would have told them.
class Year {
 public:
  explicit Year(WeatherByDay days) : days_(std::move(days)) {}

  [[nodiscard]] const model::DailyWeather& at(sys_days day) const { return days_.at(day); }
  [[nodiscard]] bool has(sys_days day) const { return days_.count(day) > 0; }

  [[nodiscard]] DecodedMessage readings(sys_days day, hours from, hours to) const {
    DecodedMessage message;
    const model::DailyWeather& own = at(day);
    const auto add = [&](Quantity quantity, ReadingForm form, hours hour, double value) {
      if (hour <= from || hour > to) return;
      message.readings.push_back({.reading = {.station = "yard",
                                              .quantity = quantity,
                                              .form = form,
                                              .source = "yard",
                                              .time = day + hour,
                                              .value = value}});
    };
    for (const int hour : {4, 10, 16, 22})
      add(Quantity::rain, ReadingForm::interval, hours{hour}, own.rain_mm.value_or(0.0) / 4.0);
    add(Quantity::temperature, ReadingForm::instant, hours{5}, own.tmin_c.value_or(5.0));
    add(Quantity::temperature, ReadingForm::instant, hours{14}, own.tmax_c.value_or(10.0));
    return message;
  }

  /// Members that hold to what came the less, the further ahead it is: more or less of it, or
  /// another day's rain.
  [[nodiscard]] std::string forecast(sys_days day) const {
    tests::ForecastTable table;
    for (int step = 0; step <= forecast_days * 4; ++step) {
      const sys_days of = day + days{step > 0 ? (step - 1) / 4 : 0};
      const int lead = static_cast<int>((of - day).count());
      const model::DailyWeather& own = has(of) ? at(of) : at(day);
      std::vector<double> rain_mm;
      for (int m = 0; m < members; ++m)
        rain_mm.push_back(step == 0 ? 0.0 : told_rain(of, m, lead) / 4.0);
      const double low = own.tmin_c.value_or(5.0);
      const double high = own.tmax_c.value_or(10.0);
      table.rows.push_back({day + hours{6} * step, rain_mm,
                            step % 4 == 1   ? low
                            : step % 4 == 3 ? high
                                            : (low + high) / 2.0});
    }
    return tests::coverage(table).dump();
  }

 private:
  [[nodiscard]] double told_rain(sys_days of, int member, int lead) const {
    const int number = static_cast<int>(of.time_since_epoch().count());
    const double luck = chance_at(number, member, lead);
    sys_days from = of;
    if (luck < 0.1 * lead) from = of - days{1 + static_cast<int>(luck * 100.0)};
    if (!has(from)) return 0.0;
    return at(from).rain_mm.value_or(0.0) * (0.7 + 0.2 * member);
  }

  WeatherByDay days_;
};

struct Told {
  std::map<std::string, int> by_event;
  std::vector<int> by_week;
  std::vector<std::string> flapped;  ///< begun again within 12 hours for the same field
};

[[nodiscard]] Told told_between(Database& database, Instant from, Instant to) {
  Told told;
  told.by_week.assign(static_cast<std::size_t>((to - from) / weeks{1}) + 1, 0);
  std::map<std::string, Instant> last_end;
  for (const StoredAlert& alert : AlertStore(database).since(from)) {
    ++told.by_event[alert.event];
    ++told.by_week[static_cast<std::size_t>((alert.onset - from) / weeks{1})];
    for (const std::string& field : alert.fields) {
      const std::string key = alert.event + "/" + alert.subject + "/" + field;
      const auto before = last_end.find(key);
      if (before != last_end.end() && alert.onset >= before->second &&
          alert.onset - before->second < 12h)
        told.flapped.push_back(alert.id + " " + field);
      if (alert.ended) last_end[key] = *alert.ended;
    }
  }
  return told;
}

void print(const Told& told, int year) {
  std::vector<int> weeks = told.by_week;
  std::sort(weeks.begin(), weeks.end());
  int sum = 0;
  for (const int week : weeks) sum += week;
  std::cout << "\nAlerts on 30 fields, Dublin Airport " << year << ": " << sum << ", a week "
            << static_cast<double>(sum) / static_cast<double>(weeks.size()) << ", median "
            << weeks[weeks.size() / 2] << ", 95 of 100 " << weeks[weeks.size() * 95 / 100]
            << ", most " << weeks.back() << '\n';
  for (const auto& [event, count] : told.by_event)
    std::cout << "  " << event << ": " << count << '\n';
}

}  // namespace

TEST_CASE("a_year_of_weather_on_30_fields_brings_few_alerts_and_none_that_flaps") {
  const char* asked = std::getenv("GLEY_ALERT_YEAR");
  const int year = asked != nullptr ? std::stoi(asked) : 2014;
  const WeatherFile file =
      read_weather_csv(GLEY_TEST_DATA "/met-eireann/dublin-airport-2010-2019.csv");
  REQUIRE(file.problems.empty());
  const Year weather(file.days);
  const FarmConfig farm = farm_of_30_fields();
  const ScratchDirectory directory;
  Database database = open_store(directory / "farm.db", Durability::process);
  Inbox inbox(directory / "farm.db", Durability::process);
  FarmState state(farm, database);
  OutlookDesk outlook(farm, database, {}, [] {});
  ToldDesk told(farm, database);
  AlertWatch alerts(database);

  // A quarter of a year first, so that no field's start is assumed any more.
  const sys_days first = sys_days{std::chrono::year{year} / 1 / 1};
  const sys_days last = sys_days{std::chrono::year{year} / 12 / 31};
  for (sys_days day = first - days{90}; day < first; day += days{1})
    (void)inbox.store(weather.readings(day, 0h, 24h), Instant{day + 23h});
  for (sys_days day = first; day <= last; day += days{1}) {
    // A dressing in spring and in early summer, on ten fields each time.
    for (std::size_t i = 0; i < 10; ++i)
      if (day == first + days{80} || day == first + days{150})
        inbox.told().put(Dressing{.field = farm.fields[3 * i].id,
                                  .material = "nitrogen",
                                  .rate = 100,
                                  .unit = "kg/ha",
                                  .time = day + 8h},
                         {}, day + 8h);
    (void)inbox.store_forecast("forecast", weather.forecast(day), Instant{day + 6h});
    hours from{0};
    for (const hours to : {hours{6}, hours{18}}) {
      (void)inbox.store(weather.readings(day, from, to), Instant{day + to});
      from = to;
      const Instant now{day + to + 30min};
      state.catch_up();
      outlook.catch_up();
      told.catch_up(now);
      state.expect(outlook.expected_today(now));
      state.look(now);
      outlook.look(state, now);
      alerts.look(state, now, outlook.outlook(now), told);
    }
    (void)inbox.store(weather.readings(day, from, 24h), Instant{day + 23h});
  }

  const Told counts = told_between(database, Instant{first}, Instant{last + days{1}});
  print(counts, year);
  std::vector<int> weeks = counts.by_week;
  std::sort(weeks.begin(), weeks.end());
  CHECK(weeks[weeks.size() * 95 / 100] <= 10);
  CHECK(counts.flapped == std::vector<std::string>{});
  for (const char* event : {"window opening", "window closing", "at field capacity",
                            "drains expected to start", "drains expected to stop"}) {
    INFO(event);
    CHECK(counts.by_event.count(event) == 1);
  }
}

}  // namespace gley::daemon

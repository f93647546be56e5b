// A week as the manager would have lived it: Dublin Airport's weather of April 2018, measured by
// Met Éireann (CC BY 4.0, tests/data/README.md), sent by a station day by day, a forecast each
// morning at six, and what the board then said beside what fell. No forecast of that week is on
// record here: ours knows each day's rain to a factor and, the further ahead, takes another day's
// for it.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <iostream>

#include "daemon/text/date_text.hpp"
#include "daemon/text/number_text.hpp"
#include "tests/coverage_text.hpp"
#include "tests/system/faults.hpp"
#include "tests/system/senml_text.hpp"
#include "tests/system/year_of_readings.hpp"

using namespace gley::tests;
using gley::daemon::date_text;
using gley::daemon::FarmCalendar;
using gley::daemon::Instant;
using nlohmann::json;
using namespace std::chrono;

namespace {

constexpr sys_days first_morning = 2018y / 3 / 29;
constexpr sys_days last_morning = 2018y / 4 / 22;
constexpr int forecast_days = 7;
constexpr int members = 4;
constexpr int steps_a_day = 4;

const std::array<const char*, 3> field_ids{"clay", "loam", "sand"};

FarmText farm_for(const Broker& broker) {
  FarmText farm(broker.port());
  farm.oldest_days = 100000;
  farm.fields = field_text("clay", {.soil = "clay",
                                    .drainage = "slow",
                                    .crop = "winter wheat",
                                    .more = "pipe_drains = true"}) +
                field_text("loam", {.crop = "pasture"}) +
                field_text("sand", {.soil = "sandy loam", .drainage = "free"});
  farm.more =
      forecast_text +
      "[[machine]]\nid = \"spreader\"\nname = \"Spreader\"\nwheel_load_t = 1.5\n"
      "tyre_pressure_bar = 0.8\n"
      "[[machine]]\nid = \"tanker\"\nname = \"Tanker\"\nwheel_load_t = 4\n"
      "tyre_pressure_bar = 1.4\n"
      "[[material]]\nid = \"nitrogen\"\nname = \"Nitrogen\"\nkind = \"mineral fertiliser\"\n"
      "rate_kg_ha = 200\nn_pct = 27\n";
  return farm;
}

/// What a member says on one day of the rain of another.
double told_rain_mm(const gley::daemon::WeatherByDay& days, sys_days of, int member, int lead) {
  const auto number = of.time_since_epoch().count() * 31 + member * 7;
  const bool mistaken = number % 10 < lead;
  const sys_days from = mistaken ? of - std::chrono::days{1 + number % 9} : of;
  return days.at(from).rain_mm.value() * (0.7 + 0.2 * member);
}

json forecast(const gley::daemon::WeatherByDay& days, sys_days today) {
  ForecastTable table;
  for (int step = 0; step <= forecast_days * steps_a_day; ++step) {
    const sys_days of = today + std::chrono::days{step > 0 ? (step - 1) / steps_a_day : 0};
    const int lead = static_cast<int>((of - today).count());
    std::vector<double> rain_mm;
    for (int m = 0; m < members; ++m)
      rain_mm.push_back(step == 0 ? 0.0 : told_rain_mm(days, of, m, lead) / steps_a_day);
    const auto& own = days.at(of);
    const double middle = (*own.tmin_c + *own.tmax_c) / 2.0;
    const int quarter = step % steps_a_day;
    table.rows.push_back({today + hours{6} * step, rain_mm,
                          quarter == 1   ? *own.tmin_c
                          : quarter == 3 ? *own.tmax_c
                                         : middle});
  }
  return coverage(table);
}

/// A farm that has its weather up to the evening before, and wakes at six each morning.
class Mornings {
 public:
  Mornings()
      : days_(dublin_2018()),
        calendar_("UTC", minutes{0}),
        messages_(days_, calendar_),
        gleyd_(farm_for(broker_)),
        faults_(gleyd_) {
    gley::daemon::WeatherByDay past(days_.begin(),
                                    days_.find(first_morning - std::chrono::days{1}));
    gleyd_.load(weather_file(past));
    set_clock(first_morning);
    gleyd_.start_online();
  }

  /// Until six of the morning: yesterday's readings and today's forecast are in.
  void wake(sys_days today) {
    set_clock(today);
    const sys_days yesterday = today - std::chrono::days{1};
    for (const std::string& pack :
         {messages_.rain(yesterday), messages_.air(yesterday), messages_.sunshine(yesterday)})
      broker_.publish("weather/yard/pack", pack);
    broker_.publish("weather/yard/pack", this_morning(today));
    broker_.publish("weather/forecast", forecast(days_, today).dump());
    const std::string rain =
        date_text(yesterday) + ",clay," + gley::daemon::number_text(rain_mm(yesterday)) + ",";
    REQUIRE(eventually([&] {
      const json board = gleyd_.json("/api/board");
      return board["forecast_time"].is_string() &&
             board["forecast_time"].get<std::string>().starts_with(date_text(today)) &&
             advice("loam")["advice"] != "not known" &&
             gleyd_.get("/api/field/clay/days.csv?from=" + date_text(yesterday)).body.find(rain) !=
                 std::string::npos;
    }));
  }

  [[nodiscard]] double rain_mm(sys_days day) const { return days_.at(day).rain_mm.value(); }
  [[nodiscard]] json field(const std::string& id) const { return gleyd_.json("/api/field/" + id); }
  [[nodiscard]] json advice(const std::string& id) const {
    return field(id)["spreading"]["nitrogen"];
  }
  [[nodiscard]] json machine(const std::string& id, const std::string& machine) const {
    return field(id)["machines"][machine];
  }
  [[nodiscard]] std::vector<std::string> standing_alerts() const {
    std::vector<std::string> headlines;
    const json all = gleyd_.json("/api/alerts")["alerts"];
    for (const json& alert : all)
      if (alert["ended"].is_null()) headlines.push_back(alert["headline"]);
    return headlines;
  }

 private:
  /// The station is heard: it did not rain between five and half past, and was as cold as it gets.
  [[nodiscard]] std::string this_morning(sys_days today) const {
    const Instant half_past_five = today + minutes{330};
    return senml_pack({{"rain", half_past_five, 0.0},
                       {"temperature", half_past_five, days_.at(today).tmin_c.value()}});
  }

  void set_clock(sys_days morning) {
    faults_.clock_ahead(morning + hours{6} - floor<seconds>(system_clock::now()));
  }

  Broker broker_;
  gley::daemon::WeatherByDay days_;
  FarmCalendar calendar_;
  DayMessages messages_;
  Gleyd gleyd_;
  Faults faults_;
};

/// What 48 h from the morning on brought: today and tomorrow, as the record has them by the day.
double fell_in_48h_mm(const Mornings& farm, sys_days day) {
  return farm.rain_mm(day) + farm.rain_mm(day + std::chrono::days{1});
}

bool speaks_of_heavy_rain(const json& advice) {
  for (const std::string reason : advice.at("reasons"))
    if (reason.starts_with("heavy rain within 48 h")) return true;
  return false;
}

/// The story of the mornings, for whoever sets GLEY_STORY.
void tell(const Mornings& farm, sys_days day) {
  if (std::getenv("GLEY_STORY") == nullptr) return;
  std::cout << '\n' << date_text(day) << ", " << farm.rain_mm(day) << " mm fell\n";
  for (const std::string id : field_ids) {
    const json spreader = farm.machine(id, "spreader");
    const json nitrogen = farm.advice(id);
    std::cout << "  " << id << ": " << farm.field(id)["water"]["wetness"] << "; spreader "
              << spreader["verdict"] << " until " << spreader["until"] << " next "
              << spreader["next_window"] << ' ' << spreader["reasons"] << "; nitrogen "
              << nitrogen["advice"] << ' ' << nitrogen["reasons"] << '\n';
  }
  for (const std::string& headline : farm.standing_alerts())
    std::cout << "  ! " << headline << '\n';
}

/// The warning stands on the morning before the 13 mm of 29 and 30 March fill the loam.
void field_capacity_is_foretold(const Mornings& farm, sys_days day) {
  if (day == first_morning) {
    CHECK(farm.field("loam")["water"]["wetness"] == "near field capacity");
    const auto alerts = farm.standing_alerts();
    CHECK(std::any_of(alerts.begin(), alerts.end(), [](const std::string& headline) {
      return headline.starts_with("Near field capacity with rain expected") &&
             headline.find("loam") != std::string::npos;
    }));
  }
  if (day == first_morning + std::chrono::days{2})
    CHECK(farm.field("loam")["water"]["wetness"] == "at field capacity");
}

void no_end_is_missing(const json& machine) {
  if (machine["verdict"] == "carries" && machine["next_window"].is_object())
    CHECK(machine["until"].is_string());
}

/// Nitrogen is held, and heavy rain is said to be why, before rain that the record calls heavy.
void heavy_rain_is_foretold(const Mornings& farm, sys_days day) {
  constexpr double heavy_mm = 15.0;
  if (fell_in_48h_mm(farm, day) < heavy_mm) return;
  for (const std::string id : field_ids) {
    CHECK(farm.advice(id)["advice"] == "hold");
    CHECK(speaks_of_heavy_rain(farm.advice(id)));
  }
}

/// What the reference's tables make of these soils in this weather: over 30 % clay wants 20 kPa of
/// suction, which this April does not reach; the loam is closed from the first rain on and opens in
/// the first dry days after three weeks that brought 66 mm.
void ground_is_as_the_soils_make_it(const Mornings& farm, sys_days day) {
  CHECK(farm.machine("clay", "spreader")["verdict"] == "keep off");
  if (day >= 2018y / 3 / 31 && day < 2018y / 4 / 18)
    CHECK(farm.machine("loam", "spreader")["verdict"] == "keep off");
  if (day >= 2018y / 4 / 18) CHECK(farm.machine("loam", "spreader")["verdict"] == "carries");
  if (day == 2018y / 4 / 17)
    CHECK(farm.machine("loam", "spreader")["next_window"]["from"] == "2018-04-18T00:00:00Z");
}

}  // namespace

TEST_CASE("a_real_spring_is_told_each_morning_as_it_then_came") {
  Mornings farm;
  for (sys_days day = first_morning; day <= last_morning; day += std::chrono::days{1}) {
    INFO(date_text(day));
    farm.wake(day);
    tell(farm, day);
    heavy_rain_is_foretold(farm, day);
    ground_is_as_the_soils_make_it(farm, day);
    field_capacity_is_foretold(farm, day);
    for (const std::string id : field_ids)
      for (const std::string machine : {"spreader", "tanker"})
        no_end_is_missing(farm.machine(id, machine));
  }
}

#include <algorithm>
#include <catch2/catch.hpp>
#include <random>

#include "tests/system/gleyd.hpp"
#include "tests/system/year_of_readings.hpp"

using namespace gley::tests;
using gley::daemon::FarmCalendar;
using namespace std::chrono;

namespace {

const std::vector<std::string> field_ids{"lawn", "wheat", "sand", "wet", "book"};

std::string contrasting_fields() {
  return field_text("lawn") +
         field_text("wheat", {.soil = "clay",
                              .drainage = "slow",
                              .crop = "winter wheat",
                              .more = "pipe_drains = true"}) +
         field_text("sand", {.soil = "loamy sand",
                             .drainage = "free",
                             .crop = "spring barley",
                             .more = "start_depletion_mm = 20"}) +
         field_text("wet", {.soil = "silty clay", .drainage = "poor", .crop = "pasture"}) +
         field_text("book",
                    {.soil = "{ field_capacity = 0.36, wilting_point = 0.20, saturation = 0.48 }",
                     .drainage = "free",
                     .crop = "{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5 }",
                     .more = "textbook = true"});
}

/// A daemon and its broker, fed a year; `calendar` says where its days begin.
struct Year {
  explicit Year(const std::string& time_zone)
      : broker({"max_queued_messages 100000"}),
        calendar(time_zone, minutes{0}),
        days(dublin_2018()),
        messages(days, calendar),
        gleyd([&] {
          FarmText farm(broker.port());
          farm.time_zone = time_zone;
          farm.oldest_days = 100000;
          farm.fields = contrasting_fields();
          return farm;
        }()),
        weather(gleyd.write("weather.csv", weather_file(days))) {
    gleyd.start_online();
  }

  void send(const std::vector<std::string>& packs) {
    std::string lines;
    for (const std::string& pack : packs) lines += pack + "\n";
    broker.publish_lines("weather/yard/pack", gleyd.write("packs", lines));
  }

  /// How the daemon's days differ from replay's, over all fields; empty if they do not.
  [[nodiscard]] std::string difference_from_replay() {
    const std::string dates = "/days.csv?from=2018-01-01&to=2018-12-31";
    for (const std::string& id : field_ids) {
      std::string& want = replayed[id];
      if (want.empty()) want = replayed_days(gleyd, weather, id);
      const std::string found = difference(gleyd.get("/api/field/" + id + dates).body, want);
      if (!found.empty()) return id + ": " + found;
    }
    return "";
  }

  [[nodiscard]] std::string difference_at_last() {
    std::string found;
    (void)eventually([&] { return (found = difference_from_replay()).empty(); });
    return found;
  }

  Broker broker;
  FarmCalendar calendar;
  gley::daemon::WeatherByDay days;
  DayMessages messages;
  Gleyd gleyd;
  std::filesystem::path weather;
  std::map<std::string, std::string> replayed;  ///< days by field, made once
};

}  // namespace

TEST_CASE("a_year_sent_out_of_order_gives_the_days_of_replay") {
  Year year("UTC");
  int readings = 0;
  std::vector<std::string> packs = year.messages.all(readings);
  const auto seed = std::random_device{}();
  INFO("seed " << seed);
  std::shuffle(packs.begin(), packs.end(), std::mt19937(seed));
  year.send(packs);
  REQUIRE(year.gleyd.eventually_stored(readings));
  CHECK(year.difference_at_last() == "");
}

TEST_CASE("rain_that_arrives_late_recomputes_its_day_and_all_after_it") {
  // Europe/Dublin: the days of 2018-03-25 and 2018-10-28 have 23 and 25 hours.
  Year year("Europe/Dublin");
  int readings = 0;
  std::vector<std::string> packs = year.messages.all(readings);
  const sys_days late = 2018y / 4 / 2;
  const std::string late_rain = year.messages.rain(late);
  REQUIRE(year.days.at(late).rain_mm == 18.2);
  std::erase(packs, late_rain);
  year.send(packs);
  REQUIRE(eventually(minutes(3), [&] {
    return year.difference_from_replay() == "lawn: 2018-04-02 rain_mm: got 0, want 18.2";
  }));
  year.send({late_rain});
  REQUIRE(year.gleyd.eventually_stored(readings));
  CHECK(year.difference_at_last() == "");
}

TEST_CASE("readings_that_come_again_count_once") {
  Year year("UTC");
  int readings = 0;
  const std::vector<std::string> packs = year.messages.all(readings);
  year.send({packs.begin(), packs.begin() + 90});
  year.send(packs);
  REQUIRE(year.gleyd.eventually_stored(readings));
  CHECK(year.gleyd.metric("gley_readings_total{outcome=\"repeated\"}").value_or(0.0) > 90.0);
  CHECK(year.difference_at_last() == "");
}

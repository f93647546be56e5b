#include <catch2/catch.hpp>

#include "daemon/store/told_store.hpp"
#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::daemon;
using namespace gley::tests;
using nlohmann::json;

// A planted sequence, so that what the record must say follows from the weather alone: three months
// without rain, a cloudburst eight days ago that no dry soil of this depth can hold, then rain that
// keeps it wet.
namespace {

using std::chrono::days;

constexpr days cloudburst_ago{8};
constexpr int dry_days = 90;

FarmText farm_with_drill() {
  FarmText farm;
  farm.more = drill_text;
  return farm;
}

std::string date_ago(days ago) {
  return date_text(today() - ago);
}

std::string planted_weather() {
  std::string text = "date,rain_mm,et0_mm\n";
  const auto day = [&](days ago, const std::string& rain, const std::string& et0) {
    text += date_ago(ago) + ',' + rain + ',' + et0 + '\n';
  };
  const days last = cloudburst_ago + days{1};
  for (days ago = last + days{dry_days}; ago >= last; ago -= days{1}) day(ago, "0", "4");
  day(cloudburst_ago, "260", "0.5");
  for (days ago = cloudburst_ago - days{1}; ago >= days{1}; ago -= days{1}) day(ago, "12", "0.5");
  return text;
}

void report(const Gleyd& gleyd, const std::string& word, days ago) {
  const Said said =
      gleyd.command("report", {"--field", "top", "--report", word, "--machine", "drill", "--time",
                               date_ago(ago) + "T12:00:00Z", "--by", "Ann"});
  INFO(said.err);
  REQUIRE(said.code == 0);
}

json judged(const Gleyd& gleyd, const std::string& word, days ago) {
  const std::string time = date_ago(ago) + "T12:00:00Z";
  const json field = gleyd.json("/api/field/top");
  for (const json& told : field["reports"])
    if (told["report"] == word && told["time"] == time) return told["judged"];
  return nullptr;
}

}  // namespace

TEST_CASE("beside_ruts_stands_for_how_many_days_the_machine_had_been_kept_off") {
  Gleyd gleyd(farm_with_drill());
  gleyd.load(planted_weather());
  report(gleyd, "left ruts", cloudburst_ago - days{3});
  report(gleyd, "left ruts", cloudburst_ago);
  gleyd.start();
  REQUIRE(gleyd.json("/api/field/top")["reports"].size() == 2);

  const json three_days_in = judged(gleyd, "left ruts", cloudburst_ago - days{3});
  CHECK(three_days_in["machine"] == "drill");
  CHECK(three_days_in["as"] == "keep off");
  CHECK(three_days_in["since"] == date_ago(cloudburst_ago));
  CHECK(three_days_in["days_before"] == 3);
  CHECK(three_days_in["or_earlier"] == false);
  CHECK(gleyd.get("/field/top").body.find(", 3 days before<") != std::string::npos);
  CHECK(judged(gleyd, "left ruts", cloudburst_ago)["days_before"] == 0);
}

TEST_CASE("ruts_that_were_not_foreseen_and_a_drive_on_dry_ground_are_told_apart_on_the_page") {
  Gleyd gleyd(farm_with_drill());
  gleyd.load(planted_weather());
  report(gleyd, "drove", cloudburst_ago + days{2});
  gleyd.start();
  const json driven = judged(gleyd, "drove", cloudburst_ago + days{2});
  CHECK(driven["as"] == "carries");
  CHECK(driven["days_before"] == 30);
  CHECK(driven["or_earlier"] == true);
  CHECK(gleyd.get("/field/top").body.find("not foreseen") == std::string::npos);

  report(gleyd, "left ruts", cloudburst_ago + days{2});
  REQUIRE(eventually([&] {
    return gleyd.get("/field/top").body.find("The ruts were not foreseen") != std::string::npos;
  }));
}

TEST_CASE("drains_seen_running_are_held_against_the_drains_of_the_record") {
  Gleyd gleyd(farm_with_drill());
  gleyd.load(planted_weather());
  const auto saw_drains = [&](days ago) {
    REQUIRE(gleyd
                .command("report", {"--field", "top", "--report", "drains running", "--time",
                                    date_ago(ago) + "T12:00:00Z"})
                .code == 0);
  };
  saw_drains(cloudburst_ago - days{4});
  saw_drains(cloudburst_ago + days{4});
  gleyd.start();
  const json wet = judged(gleyd, "drains running", cloudburst_ago - days{4});
  CHECK(wet["as"] == "running");
  CHECK(wet["since"] >= date_ago(cloudburst_ago));
  CHECK(judged(gleyd, "drains running", cloudburst_ago + days{4})["as"] == "dry");
}

TEST_CASE("of_the_first_day_on_record_it_is_not_said_that_the_day_before_was_another") {
  Gleyd gleyd(farm_with_drill());
  gleyd.load(days_up_to_yesterday(5, {"0", "4"}));
  report(gleyd, "drove", days{5});
  gleyd.start();
  const json first_day = judged(gleyd, "drove", days{5});
  CHECK(first_day["days_before"] == 0);
  CHECK(first_day["or_earlier"] == true);
  CHECK(gleyd.get("/field/top").body.find(" or earlier, the same day<") != std::string::npos);
}

TEST_CASE("a_report_of_a_day_without_record_is_not_judged") {
  Gleyd gleyd(farm_with_drill());
  report(gleyd, "drove", cloudburst_ago);
  gleyd.start();
  const json field = gleyd.json("/api/field/top");
  REQUIRE(field["reports"].size() == 1);
  CHECK(field["reports"].at(0)["judged"] == nullptr);
  CHECK(gleyd.get("/field/top").body.find("nothing: the day is not on record") !=
        std::string::npos);
}

TEST_CASE("a_tractor_that_reports_each_second_does_not_stand_the_daemon_still") {
  Gleyd gleyd(farm_with_drill());
  gleyd.load(planted_weather());
  gleyd.start();
  const std::string before = gleyd.get("/").body;
  {
    Database store(gleyd.store(), Durability::process);
    ToldStore told(store);
    Transaction transaction(store);
    constexpr int times = 60000;
    const Instant began{today() - cloudburst_ago};
    for (int second = 0; second < times; ++second)
      told.put(FieldReport{.field = "top",
                           .kind = ReportKind::drove,
                           .machine = "drill",
                           .time = began + std::chrono::seconds{second}},
               {ToldVia::mqtt, ""}, Instant{today()});
    transaction.commit();
  }
  // The board's number goes up with what was told.
  REQUIRE(eventually([&] { return gleyd.get("/").body != before; }));
  CHECK(gleyd.log().find("stood still") == std::string::npos);
}

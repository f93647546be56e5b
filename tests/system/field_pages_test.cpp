#include <catch2/catch.hpp>

#include "tests/system/gleyd.hpp"
#include "tests/system/recent_weather.hpp"

using namespace gley::tests;
using gley::daemon::date_text;

namespace {

const std::string a_machine =
    "[[machine]]\nid = \"tanker\"\nname = \"Slurry tanker\"\nwheel_load_t = 4.0\n"
    "tyre_pressure_bar = 1.5\n";

const std::string outline =
    R"({"type": "Polygon", "coordinates": [[[-6.25, 53.42], [-6.24, 53.42], [-6.24, 53.425],
        [-6.25, 53.425], [-6.25, 53.42]]]})";

FarmText farm_with(const std::string& field_more, const std::string& more) {
  FarmText farm;
  farm.fields = field_text("top", {.more = field_more});
  farm.more = more;
  return farm;
}

bool has(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

std::string yesterday() {
  return date_text(today() - std::chrono::days{1});
}

}  // namespace

TEST_CASE("a_fields_page_says_without_script_what_was_and_what_would_change_it") {
  Gleyd gleyd(farm_with("", a_machine));
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "4.0", .et0_mm = "1.0"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top");
  REQUIRE(page.status == 200);
  CHECK(has(page.body, "The last days"));
  CHECK(has(page.body, "top/explain?date=" + yesterday()));
  CHECK(has(page.body, "What would change it"));
  CHECK(has(page.body, "without rain"));
  CHECK(has(page.body, "No forecast under a day old"));
  CHECK(has(page.body, "<noscript>"));
  CHECK_FALSE(has(page.body, "style=\""));
}

TEST_CASE("where_no_evapotranspiration_is_known_a_field_is_not_said_never_to_dry") {
  Gleyd gleyd(farm_with("", a_machine));
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "4.0", .et0_mm = ""}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top");
  CHECK(has(page.body, "after how many days without rain is not known"));
  CHECK(has(page.body, "only what drains is reckoned with"));
  CHECK_FALSE(has(page.body, "not within 14 days"));
  CHECK_FALSE(has(page.body, "evaporative demand of 0 mm"));
}

TEST_CASE("days_without_evapotranspiration_do_not_lower_the_demand_of_a_dry_day") {
  Gleyd gleyd(farm_with("", a_machine));
  std::string days = days_up_to_yesterday(60, {.rain_mm = "4.0", .et0_mm = "2.0"});
  for (int i = 0; i < 4; ++i) days.erase(days.rfind(",2.0") + 1, 3);
  gleyd.load(days);
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top");
  CHECK(has(page.body, "What would change it"));
  CHECK(has(page.body, "an evaporative demand of 2.0 mm, the mean"));
}

TEST_CASE("stock_is_not_told_to_let_air_out_of_its_tyres") {
  Gleyd gleyd(
      farm_with("", "[[machine]]\nid = \"cows\"\nname = \"Cows\"\nclass = \"stock: cattle\"\n"));
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "4.0", .et0_mm = "1.0"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top");
  CHECK(has(page.body, "<b>Cows</b>, now "));
  CHECK_FALSE(has(page.body, "tyres"));
}

TEST_CASE("a_drill_on_topsoil_too_dry_to_crumble_is_told_to_wait_for_rain") {
  Gleyd gleyd(farm_with(
      "", "[[machine]]\nid = \"drill\"\nname = \"Drill\"\nclass = \"tractor and drill\"\n"));
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "0.0", .et0_mm = "4.0"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top");
  CHECK(has(page.body, "topsoil would break in clods"));
  CHECK(has(page.body, "rain has to soften it first"));
  CHECK_FALSE(has(page.body, "days without rain"));
}

TEST_CASE("every_number_of_a_day_is_explained_on_a_page_of_its_own") {
  Gleyd gleyd(farm_with("", a_machine));
  gleyd.load(days_up_to_yesterday(10, {.rain_mm = "4.0", .et0_mm = "1.0"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top/explain?date=" + yesterday());
  REQUIRE(page.status == 200);
  for (const char* key : {"depletion_mm", "topsoil_deficit_mm", "surplus_mm", "rain_mm", "et0_mm"})
    CHECK(has(page.body, "<dt id=\"" + std::string(key) + "\">"));
  CHECK(has(page.body, "FAO"));
  const HttpAnswer never = gleyd.get("/field/top/explain?date=1999-01-01");
  CHECK(never.status == 404);
  CHECK(has(never.body, "type=\"date\""));
  CHECK(gleyd.get("/field/top/explain").status == 400);
  CHECK(gleyd.get("/field/other/explain?date=" + yesterday()).status == 404);
}

TEST_CASE("seasons_stand_side_by_side_on_a_page") {
  Gleyd gleyd(farm_with("", a_machine));
  gleyd.load(days_up_to_yesterday(400, {.rain_mm = "2.0", .et0_mm = "1.0"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/field/top/seasons");
  REQUIRE(page.status == 200);
  CHECK(has(page.body, "begins on 1 October"));
  CHECK(has(page.body, "At field capacity or wetter"));
  CHECK(has(page.body, "Slurry tanker carried"));
  CHECK(has(page.body, "/seasons.csv\""));
}

TEST_CASE("a_field_without_a_day_has_its_honest_pages") {
  Gleyd gleyd{FarmText{}};
  gleyd.start();
  CHECK(has(gleyd.get("/field/top").body, "Nothing is known of this field until"));
  CHECK(has(gleyd.get("/field/top/seasons").body, "No day is on record yet"));
  CHECK(gleyd.get("/field/top/explain?date=" + yesterday()).status == 404);
  CHECK(gleyd.get("/field/other/seasons").status == 404);
}

TEST_CASE("a_farm_without_boundaries_has_no_plan_and_no_link_to_one") {
  Gleyd gleyd{FarmText{}};
  gleyd.start();
  CHECK(gleyd.get("/plan").status == 404);
  CHECK_FALSE(has(gleyd.get("/").body, "plan\""));
  CHECK_FALSE(has(gleyd.get("/field/top").body, "plan\""));
}

TEST_CASE("the_plan_shows_each_field_by_word_and_pattern_and_what_buffers_take") {
  FarmText farm = farm_with("boundary = \"top.geojson\"\n",
                            a_machine +
                                "[[watercourse]]\nid = \"beck\"\nname = \"Mill Beck\"\n"
                                "course = [[-6.26, 53.42], [-6.23, 53.42]]\nbuffer_m = 20\n");
  const std::string name = "Field top";
  farm.fields.replace(farm.fields.find(name), name.size(), "<b>Top</b> & Co");
  Gleyd gleyd(farm);
  (void)gleyd.write("top.geojson", outline);
  gleyd.load(days_up_to_yesterday(60, {.rain_mm = "6.0", .et0_mm = "0.5"}));
  gleyd.start();
  const HttpAnswer page = gleyd.get("/plan");
  REQUIRE(page.status == 200);
  CHECK(has(page.body, "keep off"));
  CHECK(has(page.body, "url(#plan-off)"));
  CHECK(has(page.body, "Mill Beck"));
  CHECK(has(page.body, "&lt;b&gt;Top&lt;/b&gt; &amp; Co"));
  // 0.01 by 0.005 degrees at 53.42 N: 663 m by 556 m, 36.8 ha; 20 m of 663 m are 1.3 ha.
  CHECK(has(page.body, "36.8 ha"));
  CHECK((has(page.body, "1.2 ha") || has(page.body, "1.3 ha") || has(page.body, "1.4 ha")));
  CHECK(gleyd.get("/plan?machine=tanker").status == 200);
  CHECK(has(gleyd.get("/").body, "href=\"plan\""));
  CHECK(has(gleyd.get("/field/top").body, "href=\"../plan\""));
}

TEST_CASE("a_reload_with_boundaries_brings_the_plan") {
  Gleyd gleyd{FarmText{}};
  gleyd.start();
  (void)gleyd.write("top.geojson", outline);
  gleyd.farm.fields = field_text("top", {.more = "boundary = \"top.geojson\"\n"});
  gleyd.configure();
  gleyd.reload();
  REQUIRE(gleyd.eventually_logs("configuration taken up"));
  CHECK(gleyd.get("/plan").status == 200);
}

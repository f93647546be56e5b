// A field's crops in the configuration: what is known better of a row, cuts, stages, calendars.
#include "daemon/farm/crop_row.hpp"
#include "daemon/farm/field_setup.hpp"
#include "tests/unit/farm/field_text.hpp"

using namespace gley::daemon;
using namespace gley::test;
using namespace std::chrono;
using Catch::Matchers::Contains;

namespace {

const std::string wheat = "[[field.crop]]\ncrop = \"winter wheat\"\n";            // lines 15 and 16
const std::string dated = wheat + "sown = 2025-10-04\nharvested = 2026-08-14\n";  // to line 18

gley::model::CropCalendar::Standing standing(const gley::model::Field& field, sys_days date) {
  return field.crops.on(date);
}

gley::model::Field model_of(const std::string& text) {
  return gley::daemon::field_of(gley::test::field_of(text));
}

}  // namespace

TEST_CASE("a named crop takes what is known better of it") {
  const auto field = model_of(
      crop("{ name = \"grass\", root_depth_mm = 600, kcb_mid = 0.95, height_m = 0.15, cover = 0.9, "
           "depletion_fraction = 0.45, runoff_cover = \"pasture, poor\" }"));
  const auto& course = standing(field, 2026y / June / 1).course;
  CHECK(course.name == "grass");
  CHECK(course.kcb.coefficients.mid_season == 0.95);
  CHECK(course.kcb.coefficients.initial == 0.95);
  CHECK(course.root_max_mm == 600.0);
  CHECK(course.height_m == 0.15);
  CHECK(course.cover == 0.9);
  CHECK(course.depletion_fraction == 0.45);
  const auto good = model_of(crop("\"grass\""));
  CHECK(course.storage_wet_mm < standing(good, 2026y / June / 1).course.storage_wet_mm);
}

TEST_CASE("what stands at the wrong crop is named") {
  CHECK(
      problem_of(crop("{ name = \"gras\" }")) ==
      "farm.toml:15: [[field]] 'top', crop: name is \"gras\"; there is no such crop; did you mean "
      "\"grass\"?");
  CHECK_THAT(problem_of(crop("{ name = \"grass\", kcb = 0.9 }")),
             Contains("kcb stands at a named crop; give kcb_mid"));
  CHECK_THAT(problem_of(crop("{ name = \"grass\", kcb_end = 0.9 }")),
             Contains("kcb_end stands at grass, which has one Kcb all year"));
  CHECK_THAT(problem_of(crop("{ name = \"peas\", cover = 0.9 }")),
             Contains("cover stands at peas, whose cover follows from its Kcb"));
  CHECK_THAT(
      problem_of(crop("{ name = \"peas\", runoff_cover = \"fellow\" }")),
      Contains("runoff_cover is \"fellow\"; there is no such cover; did you mean \"fallow\"?"));
  CHECK_THAT(problem_of(crop("{ name = \"peas\", crop = \"peas\" }")),
             Contains("crop stands beside name"));
  CHECK_THAT(problem_of(crop("{ crop = \"winter wheat\", sown = 2025-10-04 }")),
             Contains("crop stands in a table that is one crop; write name = ... there"));
  CHECK_THAT(problem_of(sowings(dated + "name = \"peas\"\n")),
             Contains("farm.toml:19: [[field]] 'top', crop: name stands in [[field.crop]]"));
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5, cuts = [\"05-25\"] }")),
             Contains("cuts stands in a crop by numbers"));
}

TEST_CASE("roots lie in the soil, and are given once") {
  CHECK(problem_of(with(sowings(dated + "root_depth_mm = 1200\n"), "station = \"yard\"\n",
                        "station = \"yard\"\nsoil_depth_mm = 900\n")) ==
        "farm.toml:20: [[field]] 'top', crop: root_depth_mm is 1200 and soil_depth_mm 900; it must "
        "not be below the soil");
  CHECK(problem_of(crop("{ name = \"grass\", root_depth_mm = 600 }\nroot_depth_mm = 700")) ==
        "farm.toml:16: [[field]] 'top': root_depth_mm is 700 and the crop's own 600; remove this "
        "one");
  CHECK(problem_of(crop("{ name = \"peas\", root_depth_min_mm = 800 }")) ==
        "farm.toml:15: [[field]] 'top', crop: root_depth_min_mm is 800 and root_depth_mm of peas "
        "700; it must not be the deeper");
}

TEST_CASE("cuts belong to a sward that stands") {
  CHECK(standing(model_of(keys("cuts = [\"05-25\", \"07-10\", \"09-01\"]")), 2026y / May / 30)
            .days_since_cut == 5);
  CHECK(problem_of(keys("cuts = [\"05-25\", \"02-30\"]")) ==
        "farm.toml:16: [[field]] 'top': cuts holds \"02-30\"; the calendar has no such day; write "
        "year-month-day, such as 2026-03-20, or month-day, such as \"03-20\", for every year");
  CHECK_THAT(problem_of(keys("cuts = [525]")),
             Contains("cuts holds 525; it must be a list of dates"));
  CHECK(problem_of(crop("\"peas\"\ncuts = [\"05-25\"]")) ==
        "farm.toml:16: [[field]] 'top': cuts stands at peas, which is no sward; remove it");
  CHECK_THAT(problem_of(sowings(dated + "cuts = [\"05-25\"]\n")),
             Contains("farm.toml:19: [[field]] 'top', crop: cuts stands at winter wheat"));
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5 }\ncuts = [\"05-25\"]")),
             Contains("farm.toml:16: [[field]] 'top': cuts stands at a crop by numbers"));
  CHECK_THAT(problem_of(crop("{ name = \"grass\", cut_kcb = 0.5 }")),
             Contains("cut_kcb stands without cuts"));
  const std::string ley = "[[field.crop]]\ncrop = \"ryegrass\"\nsown = 2026-04-10\n";
  CHECK_THAT(problem_of(sowings(ley + "cuts = [2026-03-01]\n")),
             Contains("farm.toml:18: [[field]] 'top', crop: cuts hold 2026-03-01 and the sward is "
                      "sown 2026-04-10"));
  CHECK_THAT(problem_of(sowings(ley + "cuts = [2028-03-01]\nharvested = 2028-02-01\n")),
             Contains("cuts hold 2028-03-01 and the sward ends 2028-02-01"));
}

TEST_CASE("stages are given in one way, and by a crop that has them") {
  CHECK(problem_of(sowings(dated + "stage_days = [100, 70, 70, 30]\n"
                                   "stage_dates = [\"03-01\", \"05-10\", \"07-20\"]\n")) ==
        "farm.toml:20: [[field]] 'top', crop: stage_dates stands beside stage_days; give one of "
        "them");
  CHECK_THAT(
      problem_of(crop("{ name = \"grass\", stage_dates = [\"03-01\", \"05-10\", \"07-20\"] }")),
      Contains("stage_dates stands at grass, which has no stages"));
  CHECK_THAT(
      problem_of(crop("{ name = \"peas\", stages_day_degrees = { base_c = 0, ini = 300, dev = "
                      "400, mid = 600 } }")),
      Contains("crop, stages_day_degrees: late is missing"));
}

TEST_CASE("stages by dates follow each other from sowing to harvest") {
  const auto field =
      model_of(sowings(dated + "stage_dates = [\"03-01\", 2026-05-10, \"07-20\"]\n"));
  const auto& lengths = standing(field, 2026y / June / 1).course.kcb.lengths;
  CHECK(lengths.initial_d == 148);  // 4 October to 1 March
  CHECK(lengths.development_d == 70);
  CHECK(lengths.mid_season_d == 71);
  CHECK(lengths.late_season_d == 25);
  CHECK(problem_of(sowings(dated + "stage_dates = [\"03-01\", \"02-10\", \"07-20\"]\n")) ==
        "farm.toml:19: [[field]] 'top', crop: stage_dates hold 2026-02-10 after 2026-03-01; each "
        "must be the later");
  CHECK(problem_of(sowings(dated + "stage_dates = [2025-09-01, \"05-10\", \"07-20\"]\n")) ==
        "farm.toml:19: [[field]] 'top', crop: stage_dates hold 2025-09-01 after sowing on "
        "2025-10-04; each must be the later");
  CHECK(problem_of(sowings(dated + "stage_dates = [\"03-01\", \"05-10\", \"08-20\"]\n")) ==
        "farm.toml:19: [[field]] 'top', crop: stage_dates hold 2026-08-20 and harvest is "
        "2026-08-14; harvest must be the later");
  CHECK_THAT(problem_of(sowings(dated + "stage_dates = [\"03-01\"]\n")),
             Contains("stage_dates must be three days"));
}

TEST_CASE("stages in days end by the harvest") {
  CHECK(problem_of(sowings(dated + "stage_days = [160, 75, 75, 25]\n")) ==
        "farm.toml:19: [[field]] 'top', crop: stage_days are 335 days together and from sowing to "
        "harvest are 314; shorten the stages or correct the dates");
  CHECK(gley::test::problems_of(sowings(dated + "stage_days = [140, 75, 75, 24]\n")).empty());
}

TEST_CASE("the table's stages are stretched to the days from sowing to harvest") {
  // 314 days of the table's 335: boundaries at 160, 235 and 310 of 335 go to 149.97, 220.27,
  // 290.57.
  const auto field = model_of(sowings(dated));
  const auto& lengths = standing(field, 2026y / June / 1).course.kcb.lengths;
  CHECK(lengths.initial_d == 150);
  CHECK(lengths.development_d == 70);
  CHECK(lengths.mid_season_d == 71);
  CHECK(lengths.late_season_d == 23);
  const auto usual = model_of(crop("\"winter wheat\""));
  CHECK(standing(usual, 2026y / June / 1).course.kcb.lengths.initial_d == 160);
}

TEST_CASE("a crop of every year takes its own days of sowing and harvest") {
  const auto field =
      model_of(crop("{ name = \"spring barley\", sown = \"03-10\", harvested = \"08-01\" }"));
  CHECK(standing(field, 2026y / March / 10).course.name == "spring barley");
  CHECK(standing(field, 2031y / March / 9).course.name == "stubble");
  CHECK(standing(field, 2031y / July / 31).course.name == "spring barley");
  CHECK(standing(field, 2031y / August / 1).course.name == "stubble");
  CHECK_THAT(
      problem_of(crop("{ name = \"grass\", sown = \"03-10\" }")),
      Contains("sown is \"03-10\" of every year; grass stays where it is sown; give the date"));
  CHECK_THAT(problem_of(crop("{ name = \"peas\", sown = \"03-10\", harvested = 2026-08-01 }")),
             Contains("harvested is 2026-08-01 and sown \"03-10\" of every year"));
  CHECK_THAT(problem_of(sowings(dated + "[[field.crop]]\ncrop = \"peas\"\nsown = \"03-10\"\n")),
             Contains("farm.toml:19: [[field]] 'top', crop: sown is missing its year"));
}

TEST_CASE("a year without a crop is a gap, unless what stands there is named") {
  const std::string beans = "[[field.crop]]\ncrop = \"spring beans\"\nsown = 2028-03-08\n";
  CHECK(
      problem_of(sowings(dated + beans)) ==
      "farm.toml:19: [[field]] 'top', crop: spring beans sown 2028-03-08 leaves a gap of 572 days "
      "after winter wheat of farm.toml:15, harvested 2026-08-14; correct the dates or sow what "
      "stands there, such as \"stubble\", \"bare soil\" or \"grass\"");
  CHECK(problems_of(
            sowings(dated + "[[field.crop]]\ncrop = \"stubble\"\nsown = 2026-08-14\n" + beans))
            .empty());
}

TEST_CASE("a field is irrigated by a known method") {
  const auto wetted = [](const std::string& value) {
    return model_of(keys("irrigation = " + value)).irrigation_wetted_fraction;
  };
  CHECK(model_of(crop("\"grass\"")).irrigation_wetted_fraction == 1.0);
  CHECK(wetted("\"sprinkler\"") == 1.0);
  CHECK(wetted("{ method = \"drip\" }") == 0.35);
  CHECK(wetted("{ method = \"drip\", wetted_fraction = 0.3 }") == 0.3);
  CHECK(model_of(keys("irrigation = \"drip\"")).drip_lines);
  CHECK(
      problem_of(keys("irrigation = { method = \"drop\" }")) ==
      "farm.toml:16: [[field]] 'top', irrigation: method is \"drop\"; there is no such method; did "
      "you mean \"drip\"?");
  CHECK_THAT(problem_of(keys("irrigation = { wetted_fraction = 0.3 }")),
             Contains("irrigation: method is missing"));
  CHECK_THAT(problem_of(keys("irrigation = { method = \"drip\", wetted_fraction = 35 }")),
             Contains("wetted_fraction is 35; it must be above 0 and at most 1"));
  CHECK_THAT(problem_of(keys("irrigation = true")), Contains("irrigation is true; it must be a"));
}

TEST_CASE("a named soil takes what is known better of it, and keeps its waters in order") {
  const auto of_class = model_of(crop("\"grass\"")).parameters.soil.horizon;
  const auto own = model_of(soil("{ class = \"clay loam\", field_capacity = 0.36, "
                                 "conductivity_mm_h = 4, hydrologic_group = \"C\" }"))
                       .parameters.soil.horizon;
  CHECK(own[0].field_capacity == 0.36);
  CHECK(own[0].wilting_point == of_class[0].wilting_point);
  // The subsoil holds four fifths of the topsoil's available water.
  CHECK(own[5].field_capacity ==
        Approx(own[0].wilting_point + 0.8 * (0.36 - own[0].wilting_point)));
  CHECK(own[0].saturated_conductivity_mm_h == 4.0);
  CHECK(own[5].saturated_conductivity_mm_h == 4.0);
  CHECK(model_of(soil("{ sand_pct = 30, clay_pct = 35, retention_b = 11 }"))
            .parameters.soil.horizon[0]
            .retention_b == 11.0);
  CHECK_THAT(
      problem_of(soil("{ class = \"clay loam\", wilting_point = 0.5 }")),
      Contains("farm.toml:14: [[field]] 'top', soil: wilting_point is 0.5 and field_capacity "
               "of clay loam 0."));
  CHECK_THAT(problem_of(soil("{ class = \"clay loam\", field_capacity = 0.6 }")),
             Contains("field_capacity is 0.6 and saturation of clay loam 0."));
  CHECK_THAT(problem_of(soil("{ class = \"clay loam\", field_capacity = 0.1 }")),
             Contains("field_capacity is 0.1 and wilting_point of clay loam 0."));
  CHECK_THAT(
      problem_of(soil("{ class = \"clay loam\", field_capacity = 0.3, wilting_point = 0.3 }")),
      Contains("wilting_point is 0.3 and field_capacity 0.3; wilting_point must be the "
               "smaller"));
  CHECK_THAT(problem_of(soil("{ class = \"loam\" }")),
             Contains("class is \"loam\"; there is no such texture class"));
  CHECK_THAT(problem_of(soil("{ class = \"clay loam\", sand_pct = 30 }")),
             Contains("sand_pct stands beside class"));
}

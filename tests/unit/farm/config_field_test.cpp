#include "tests/unit/farm/field_text.hpp"

using namespace gley::daemon;
using namespace gley::test;
using namespace std::chrono;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

TEST_CASE("a soil by numbers keeps wilting point, field capacity and saturation in order") {
  CHECK(problem_of(soil("{ field_capacity = 0.2, wilting_point = 0.25, saturation = 0.48 }")) ==
        "farm.toml:14: [[field]] 'top', soil: wilting_point is 0.25 and field_capacity 0.2; "
        "wilting_point must be the smaller");
  CHECK_THAT(problem_of(soil("{ field_capacity = 0.48, wilting_point = 0.2, saturation = 0.48 }")),
             Contains("field_capacity is 0.48 and saturation 0.48"));
  CHECK_THAT(problem_of(soil("{ field_capacity = 36, wilting_point = 0.2, saturation = 0.48 }")),
             Contains("field_capacity is 36; it must be above 0 and at most 0.9 m3/m3"));
}

TEST_CASE("a soil by numbers needs all three") {
  CHECK_THAT(problem_of(soil("{ field_capacity = 0.36, wilting_point = 0.2 }")),
             StartsWith("farm.toml:14: [[field]] 'top', soil: saturation is missing"));
  CHECK_THAT(problem_of(soil("{ field_capacity = 0.36, wilting_point = 0.2, saturation = 0.5, "
                             "sand_pct = 20 }")),
             Contains("sand_pct stands beside a soil by numbers"));
}

TEST_CASE("a soil by texture is a whole, and within what the equations hold for") {
  CHECK_THAT(problem_of(soil("{ sand_pct = 70, clay_pct = 40 }")),
             Contains("clay_pct is 40 and sand_pct 70; together they must not be over 100"));
  CHECK_THAT(problem_of(soil("{ sand_pct = 70 }")), Contains("clay_pct is missing"));
  CHECK_THAT(problem_of(soil("{ sand_pct = 10, clay_pct = 65 }")),
             Contains("clay_pct is 65; the texture equations hold to 60"));
  CHECK_THAT(problem_of(soil("{ sand_pct = 30, clay_pct = 35, organic_pct = 20 }")),
             Contains("organic_pct is 20; it must be from 0 to 8 %"));
  CHECK(std::get<SoilByTexture>(field_of(soil("{ sand_pct = 30, clay_pct = 35 }")).soil)
            .organic_pct == 3.0);
}

TEST_CASE("a soil of no known form is explained") {
  CHECK_THAT(problem_of(soil("7")), StartsWith("farm.toml:14: [[field]] 'top': soil is 7; it must "
                                               "be a texture class"));
  CHECK_THAT(problem_of(soil("\"peat\"")), Contains("known are: sand, loamy sand, "));
}

TEST_CASE("every soil class and every documented drainage class is taken") {
  for (const char* name :
       {"sand", "loamy sand", "sandy loam", "sandy silt loam", "silt loam", "sandy clay loam",
        "clay loam", "silty clay loam", "sandy clay", "silty clay", "clay"}) {
    INFO(name);
    CHECK(problems_of(soil("\"" + std::string(name) + "\"")).empty());
  }
  for (const char* word : {"free", "moderate", "slow", "poor"}) {
    CHECK(problems_of(keys("drainage = \"" + std::string(word) + "\"")).empty());
  }
}

TEST_CASE("a crop by numbers needs all five") {
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700 }")),
             StartsWith("farm.toml:15: [[field]] 'top', crop: depletion_fraction is missing"));
  CHECK(problems_of(crop("{}")).size() == 5);
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 90, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5 }")),
             Contains("cover is 90; it must be from 0 to 1"));
  CHECK_THAT(problem_of(crop("[]")), Contains("crop is a list; it must be a crop"));
  CHECK_THAT(problem_of(crop("true")), Contains("crop is true; it must be a crop"));
}

TEST_CASE("nothing lies below the soil") {
  CHECK(problem_of(keys("soil_depth_mm = 500\nroot_depth_mm = 600")) ==
        "farm.toml:17: [[field]] 'top': root_depth_mm is 600 and soil_depth_mm 500; it must not be "
        "below the soil");
  CHECK_THAT(problem_of(keys("soil_depth_mm = 500\nslow_layer_depth_mm = 600")),
             StartsWith("farm.toml:17: [[field]] 'top': slow_layer_depth_mm is 600"));
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5 }\nsoil_depth_mm = 500")),
             StartsWith("farm.toml:15: [[field]] 'top': crop has root_depth_mm 700"));
  CHECK_THAT(problem_of(crop("{ kcb = 0.95, cover = 0.9, height_m = 0.12, root_depth_mm = 700, "
                             "depletion_fraction = 0.5 }\nroot_depth_mm = 500")),
             StartsWith("farm.toml:16: [[field]] 'top': root_depth_mm is 500 and the crop's own "));
}

TEST_CASE("evaporable water and drains are in order") {
  CHECK_THAT(problem_of(keys("rew_mm = 25\ntew_mm = 20")),
             StartsWith("farm.toml:16: [[field]] 'top': rew_mm is 25 and tew_mm 20"));
  CHECK_THAT(
      problem_of(keys("pipe_rate_mm_d = 5")),
      StartsWith("farm.toml:16: [[field]] 'top': pipe_rate_mm_d stands without pipe_drains"));
  CHECK(problems_of(keys("pipe_drains = false\npipe_rate_mm_d = 5")).empty());
  CHECK_THAT(problem_of(keys("textbook = \"yes\"")),
             Contains("textbook is \"yes\"; it must be true or false"));
  CHECK_THAT(problem_of(keys("boundary = \"top.geojson\"")), Contains("there is no such file"));
  CHECK_THAT(problem_of(keys("start_depletion_mm = -1")), Contains("it must be from 0 to 1000 mm"));
}

TEST_CASE("sowings stand in the order of their dates, with the usual harvest where none is given") {
  const FieldConfig field = field_of(sowings(R"([[field.crop]]
crop = "spring barley"
sown = 2026-03-20
harvested = "2026-08-10"
[[field.crop]]
crop = "winter wheat"
sown = "2024-10-05"
kcb_mid = 1.05
stage_days = [150, 70, 70, 30]
[[field.crop]]
crop = "pasture"
sown = 2026-09-01
)"));
  const auto& rotation = std::get<std::vector<CropSowing>>(field.crop);
  REQUIRE(rotation.size() == 3);
  CHECK(rotation[0].crop == "winter wheat");
  CHECK(rotation[0].sown == year{2024} / 10 / 5);
  CHECK(rotation[0].harvested == year{2025} / 8 / 25);
  CHECK(rotation[0].own.kcb_mid == 1.05);
  CHECK(rotation[0].own.stages->dev == 70);
  CHECK(rotation[1].harvested == year{2026} / 8 / 10);
  CHECK_FALSE(rotation[2].harvested.has_value());
}

TEST_CASE("a crop in one table without dates is sown every year") {
  const FieldConfig field = field_of(sowings("[[field.crop]]\ncrop = \"peas\"\nkcb_mid = 1.0\n"));
  const auto& sowing = std::get<std::vector<CropSowing>>(field.crop).at(0);
  CHECK_FALSE(sowing.sown.has_value());
  CHECK(sowing.own.kcb_mid == 1.0);
}

TEST_CASE("sowings that overlap are named with both lines") {
  CHECK(problem_of(sowings(R"([[field.crop]]
crop = "winter wheat"
sown = 2025-10-05
harvested = 2026-08-20
[[field.crop]]
crop = "winter oilseed rape"
sown = 2026-08-19
)")) == "farm.toml:19: [[field]] 'top', crop: winter oilseed rape sown 2026-08-19 overlaps winter "
        "wheat of farm.toml:15, harvested 2026-08-20; correct the dates");
  CHECK_THAT(problem_of(sowings("[[field.crop]]\ncrop = \"pasture\"\nsown = 2026-03-01\n"
                                "[[field.crop]]\ncrop = \"peas\"\nsown = 2026-03-01\n")),
             Contains("peas sown 2026-03-01 overlaps pasture of farm.toml:15"));
}

TEST_CASE("a crop may be sown on the day the last one is harvested") {
  CHECK(problems_of(sowings(R"([[field.crop]]
crop = "winter barley"
sown = 2025-09-20
harvested = 2026-07-20
[[field.crop]]
crop = "cover crop"
sown = 2026-07-20
)"))
            .empty());
}

TEST_CASE("dates of a sowing exist and are in order") {
  const std::string wheat = "[[field.crop]]\ncrop = \"winter wheat\"\n";
  CHECK_THAT(problem_of(sowings(wheat + "sown = \"2026-02-30\"\n")),
             StartsWith("farm.toml:17: [[field]] 'top', crop: sown is \"2026-02-30\"; the calendar "
                        "has no such day"));
  CHECK_THAT(problem_of(sowings(wheat + "sown = 2026-02-30\n")),
             StartsWith("farm.toml:17: not valid TOML: "));
  CHECK_THAT(problem_of(sowings(wheat + "sown = 2026\n")),
             Contains("sown is 2026; it must be a d"));
  CHECK_THAT(problem_of(sowings(wheat + "sown = 2025-10-01\nharvested = 2025-08-01\n")),
             StartsWith("farm.toml:18: [[field]] 'top', crop: harvested is 2025-08-01 and sown "
                        "2025-10-01; harvest must be the later"));
  CHECK_THAT(problem_of(sowings(wheat + "harvested = 2025-08-01\n")),
             Contains("harvested stands without sown"));
  CHECK_THAT(problem_of(sowings(wheat + wheat)), Contains("sown is missing"));
}

TEST_CASE("a text where a list of numbers belongs is named and does not end the program") {
  CHECK_THAT(problem_of(crop("{ name = \"peas\", stage_days = \"20\" }")),
             Contains("stage_days is \"20\"; it must be a list of whole numbers"));
}

TEST_CASE("a sowing names a known crop, and its stages are four") {
  const std::string dated = "[[field.crop]]\nsown = 2025-10-01\n";
  CHECK_THAT(problem_of(sowings(dated + "crop = \"winter weat\"\n")),
             StartsWith("farm.toml:17: [[field]] 'top', crop: crop is \"winter weat\"; there is no "
                        "such crop; did you mean \"winter wheat\"?"));
  CHECK_THAT(problem_of(sowings(dated)), Contains("crop is missing"));
  CHECK_THAT(problem_of(sowings(dated + "crop = \"peas\"\nstage_days = [20, 30, 40]\n")),
             Contains("stage_days must be four lengths"));
  CHECK_THAT(problem_of(sowings(dated + "crop = \"peas\"\nstage_days = [20, 30, 40, -1]\n")),
             Contains("stage_days must be four lengths"));
  CHECK_THAT(problem_of(sowings(dated + "crop = \"peas\"\nstage_days = [20, 30, 40, 9.5]\n")),
             Contains("stage_days holds 9.5"));
  CHECK_THAT(problem_of(sowings(dated + "crop = \"grass\"\nstage_days = [20, 30, 40, 9]\n")),
             Contains("stage_days stands at grass, which has no stages"));
  CHECK_THAT(problem_of(sowings(dated + "crop = \"peas\"\nkcb = 1\n")),
             Contains("a crop by numbers is written crop = { kcb"));
}

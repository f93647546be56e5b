#include <catch2/catch.hpp>

#include "daemon/farm/unit.hpp"
#include "daemon/farm/word.hpp"
#include "tests/unit/farm/config_fixture.hpp"

using namespace gley::daemon;
using namespace gley::test;
using Lines = std::vector<std::string>;
using Catch::Matchers::Contains;
using Catch::Matchers::StartsWith;

namespace {

/// A farm whose station has one reading, its table at line 19 of the file.
std::string reading(const std::string& keys) {
  return least_farm() + "[[station]]\nid = \"b\"\n[[station.reading]]\n" + keys;
}

const std::string rain = "topic = \"w/rain\"\nquantity = \"rain\"\nunit = \"mm\"\n";

}  // namespace

TEST_CASE("quantities, forms and units are known ones") {
  CHECK_THAT(problem_of(reading("topic = \"w\"\nquantity = \"rane\"\nunit = \"mm\"\nform = "
                                "\"interval\"\n")),
             StartsWith("farm.toml:23: [[station]] 'b', reading: quantity is \"rane\"; it must be "
                        "rain, temperature,"));
  CHECK_THAT(problem_of(reading(rain + "form = \"intervall\"\n")),
             Contains("did you mean \"interval\"?"));
  CHECK_THAT(problem_of(reading("topic = \"w\"\nquantity = \"rain\"\nunit = \"inch\"\nform = "
                                "\"interval\"\n")),
             StartsWith("farm.toml:24: [[station]] 'b', reading: unit is \"inch\"; known for rain "
                        "as interval are: mm, "));
}

TEST_CASE("a quantity comes in a form that it can have") {
  CHECK(problem_of(reading("topic = \"w\"\nquantity = \"temperature\"\nunit = \"Cel\"\nform = "
                           "\"interval\"\n")) ==
        "farm.toml:25: [[station]] 'b', reading: form is \"interval\"; temperature must come as "
        "instant");
  CHECK_THAT(problem_of(reading(rain + "form = \"instant\"\n")),
             Contains("rain must come as interval or counter or rate"));
}

TEST_CASE("only what counts has a step") {
  CHECK(problems_of(reading(rain + "form = \"counter\"\nstep = 0.2\n")).empty());
  CHECK(problems_of(reading(rain + "form = \"interval\"\nstep = 0.2\n")).empty());
  CHECK_THAT(
      problem_of(reading(
          "topic = \"w/rain\"\nquantity = \"rain\"\nunit = \"mm/h\"\nform = \"rate\"\nstep = 1\n")),
      Contains("step stands at a reading that counts nothing"));
  CHECK_THAT(problem_of(reading(rain + "form = \"counter\"\nstep = 0\n")),
             Contains("step is 0; it must be above 0"));
}

TEST_CASE("only a counter rolls over") {
  CHECK(problems_of(reading(rain + "form = \"counter\"\nrolls_over_at = 65536\n")).empty());
  CHECK_THAT(problem_of(reading(rain + "form = \"interval\"\nrolls_over_at = 65536\n")),
             Contains("rolls_over_at stands at a reading that is no counter"));
}

TEST_CASE("topics are MQTT topic filters") {
  for (const char* good : {"+/rain", "a/+/b", "a/#", "/a", "a//b"}) {
    INFO(good);
    CHECK(problems_of(reading(with(rain, "w/rain", good) + "form = \"interval\"\n")).empty());
  }
  for (const char* bad : {"a/#/b", "a+/b", "a#", "##", ""}) {
    INFO(bad);
    CHECK_THAT(problem_of(reading(with(rain, "w/rain", bad) + "form = \"interval\"\n")),
               StartsWith("farm.toml:22: [[station]] 'b', reading: topic is "));
  }
}

TEST_CASE("a topic may not take in what the daemon says itself") {
  for (const char* bad : {"#", "gley/#", "gley/alder/#", "gley/+/board", "+/alder/field/#"}) {
    INFO(bad);
    CHECK_THAT(problem_of(reading(with(rain, "w/rain", bad) + "form = \"interval\"\n")),
               Contains("takes in gley/alder/..."));
  }
  for (const char* good : {"gley/other/#", "gley", "gley/alder", "+/rain", "weather/#"}) {
    INFO(good);
    CHECK(problems_of(reading(with(rain, "w/rain", good) + "form = \"interval\"\n")).empty());
  }
}

TEST_CASE("a forecast's topic leaves the readings and the daemon's own topics alone") {
  const std::string once = reading(rain + "form = \"interval\"\n");
  for (const char* bad : {"w/rain", "w/#", "+/rain", "+/+"}) {
    INFO(bad);
    CHECK(problem_of(once + "[forecast]\ntopic = \"" + bad + "\"\n") ==
          "farm.toml:27: [forecast]: topic is \"" + std::string(bad) +
              "\", which takes in \"w/rain\" of station 'b', and its readings would be lost; "
              "choose a narrower one");
  }
  CHECK_THAT(problem_of(least_farm() + "[forecast]\ntopic = \"gley/#\"\n"),
             Contains("takes in gley/alder/..."));
  for (const char* good : {"w/forecast", "w/rain/+", "forecast/#"}) {
    INFO(good);
    CHECK(problems_of(once + "[forecast]\ntopic = \"" + good + "\"\n").empty());
  }
  // A station may listen to all that the forecast leaves.
  CHECK(problems_of(with(once, "w/rain", "w/#") + "[forecast]\ntopic = \"w/forecast\"\n").empty());
}

TEST_CASE("pointers are JSON pointers, and not mixed with SenML names") {
  CHECK_THAT(problem_of(reading(rain + "form = \"interval\"\nvalue = \"rain/mm\"\n")),
             StartsWith("farm.toml:26: [[station]] 'b', reading: value is \"rain/mm\"; it must be "
                        "a JSON pointer"));
  CHECK_THAT(problem_of(reading(rain + "form = \"interval\"\nvalue = \"/a~2\"\n")),
             Contains("value is \"/a~2\""));
  CHECK(problems_of(reading(rain + "form = \"interval\"\nvalue = \"\"\n")).empty());
  CHECK_THAT(problem_of(reading(rain + "form = \"interval\"\nname = \"rain\"\ntime = \"/t\"\n")),
             StartsWith("farm.toml:27: [[station]] 'b', reading: time stands beside name"));
}

TEST_CASE("the same value is not mapped twice to one quantity") {
  const std::string once = rain + "form = \"interval\"\n";
  CHECK_THAT(problem_of(reading(once + "[[station.reading]]\n" + once)),
             StartsWith("farm.toml:27: [[station]] 'b', reading: topic is mapped to rain twice, "
                        "first at farm.toml:21"));
  CHECK(problems_of(reading(once + "[[station.reading]]\n" + once + "value = \"/b\"\n")).empty());
}

TEST_CASE("one value is not taken for two quantities") {
  const std::string once = rain + "form = \"interval\"\n";
  const auto air = [](const std::string& topic, const std::string& more = "") {
    return "[[station.reading]]\ntopic = \"" + topic +
           "\"\nquantity = \"temperature\"\nunit = \"Cel\"\nform = \"instant\"\n" + more;
  };
  CHECK(problem_of(reading(once + air("w/rain"))) ==
        "farm.toml:27: [[station]] 'b', reading: topic brings one value both as temperature and as "
        "rain, first at farm.toml:21; give each its own topic, or the value or name it has there");
  CHECK_THAT(problem_of(reading(with(once, "w/rain", "w/#") + air("w/air"))),
             Contains("brings one value both as temperature and as rain"));
  CHECK_THAT(problem_of(reading(once + air("w/+"))),
             Contains("brings one value both as temperature and as rain"));
  CHECK(problems_of(reading(once + air("w/air"))).empty());
  CHECK(problems_of(reading(once + air("w/rain", "value = \"/air\"\n"))).empty());
  CHECK(problems_of(reading(once + air("w/rain", "name = \"air\"\n"))).empty());
}

TEST_CASE("a unit that is not known is told those that are, in plain words too") {
  CHECK_THAT(problem_of(reading("topic = \"w\"\nquantity = \"wind\"\nunit = \"mph\"\nform = "
                                "\"instant\"\n")),
             Contains("[kn_i] (knots), [mi_i]/h (miles an hour)"));
  CHECK_THAT(problem_of(reading("topic = \"w\"\nquantity = \"temperature\"\nunit = \"C\"\nform = "
                                "\"instant\"\n")),
             Contains("are: Cel (degrees Celsius), K, [degF] (degrees Fahrenheit)"));
}

TEST_CASE("numbers of a station have their ranges") {
  struct Case {
    const char* line;
    const char* words;
  };
  for (const Case& c : {Case{"latitude = -90.5", "latitude is -90.5; it must be from -90 to 90"},
                        Case{"longitude = 181", "longitude is 181"},
                        Case{"elevation_m = 9000", "elevation_m is 9000"},
                        Case{"wind_height_m = 0", "wind_height_m is 0; it must be from 0.5 to 100"},
                        Case{"krs = 0.5", "krs is 0.5; it must be from 0.1 to 0.25"},
                        Case{"dew_point_offset_c = -40", "dew_point_offset_c is -40"}}) {
    const std::string line = problem_of(least_farm() + "[[station]]\nid = \"b\"\n" + c.line + "\n");
    CHECK_THAT(line, StartsWith("farm.toml:21: [[station]] 'b': "));
    CHECK_THAT(line, Contains(c.words));
  }
}

TEST_CASE("every quantity has a form and every form a unit") {
  using enum ReadingForm;
  for (const char* word : {"rain", "temperature", "humidity", "dew_point", "wind", "sunshine",
                           "radiation", "irrigation"}) {
    INFO(word);
    const auto quantity = from_word<Quantity>(std::string(word));
    REQUIRE(quantity.has_value());
    std::string units;
    for (const ReadingForm form : {interval, counter, rate, instant}) {
      units += known_units(*quantity, form);
    }
    CHECK_FALSE(units.empty());
  }
}

#include "daemon/readings/forecast.hpp"

#include <catch2/catch.hpp>

#include "daemon/text/date_text.hpp"
#include "tests/unit/readings/forecast_example.hpp"

using namespace gley::daemon;
using namespace gley::tests;
using Catch::Matchers::Contains;
using nlohmann::json;

namespace {

DecodedForecast decoded(const json& document) {
  return decode_forecast(example_terms(), document.dump(), forecast_came);
}

struct Refused {
  std::string kind;
  std::string detail;
};

Refused refused(const std::string& payload) {
  const DecodedForecast forecast = decode_forecast(example_terms(), payload, forecast_came);
  if (forecast) return {"taken", ""};
  return {std::string(to_word(forecast.error().kind)), forecast.error().detail};
}

Refused refused(const json& document) {
  return refused(document.dump());
}

}  // namespace

TEST_CASE("a point series gives each quantity by member and time") {
  const DecodedForecast forecast = decoded(example_coverage());
  REQUIRE(forecast.has_value());
  CHECK(forecast->members == 2);
  const ForecastSeries* rain = forecast->find(Quantity::rain);
  REQUIRE(rain != nullptr);
  CHECK(rain->times.front() == forecast_day + 12h);
  CHECK(rain->times.back() == forecast_day + 30h);
  CHECK(rain->of(0) == std::vector<std::optional<double>>{0.0, 1.0, 2.0, std::nullopt});
  CHECK(rain->of(1) == std::vector<std::optional<double>>{0.5, 0.0, 4.0, 8.0});
  const ForecastSeries* temperature = forecast->find(Quantity::temperature);
  REQUIRE(temperature != nullptr);
  CHECK(temperature->form == ReadingForm::instant);
  CHECK(*temperature->of(1)[0] == Approx(10.0));
  CHECK(*temperature->of(1)[3] == Approx(3.0));
}

TEST_CASE("axes may stand in any order, the last is the fastest") {
  json turned = example_coverage();
  turned["ranges"]["precipitation"]["axisNames"] = {"t", "z", "member"};
  turned["ranges"]["precipitation"]["shape"] = {4, 1, 2};
  turned["ranges"]["precipitation"]["values"] = {0.0, 0.5, 1.0, 0.0, 2.0, 4.0, nullptr, 8.0};
  const DecodedForecast forecast = decoded(turned);
  REQUIRE(forecast.has_value());
  CHECK(forecast->find(Quantity::rain)->members ==
        decoded(example_coverage())->find(Quantity::rain)->members);
}

TEST_CASE("a date alone stands for the farm's whole day") {
  json daily = example_coverage();
  daily["domain"]["axes"]["t"]["values"] = {"2026-03-02", "2026-03-03", "2026-03-04", "2026-03-05"};
  const DecodedForecast forecast = decoded(daily);
  REQUIRE(forecast.has_value());
  const FarmCalendar calendar = example_terms().calendar;
  CHECK(calendar.day_of_amount_until(forecast->find(Quantity::rain)->times[1]) ==
        forecast_day + std::chrono::days{1});
  CHECK(calendar.day_of(forecast->find(Quantity::rain)->times[1]) ==
        forecast_day + std::chrono::days{1});
}

TEST_CASE("what stands for no quantity of ours is left out and named") {
  json more = example_coverage();
  more["ranges"]["cape"] = more["ranges"]["temperature"];
  const DecodedForecast forecast = decoded(more);
  REQUIRE(forecast.has_value());
  CHECK(forecast->unused == std::vector<std::string>{"cape"});
}

TEST_CASE("a coverage that does not hold together is refused in words") {
  json wrong = example_coverage();
  SECTION("another shape than its axes") {
    wrong["ranges"]["precipitation"]["shape"] = {2, 3};
    CHECK_THAT(refused(wrong).detail,
               Contains("precipitation: its shape does not fit the axis 't'"));
  }
  SECTION("members of different length") {
    wrong["ranges"]["precipitation"]["values"].erase(7);
    CHECK(refused(wrong).kind == "malformed");
    CHECK_THAT(refused(wrong).detail, Contains("precipitation has 7 values, its shape 8"));
  }
  SECTION("a grid") {
    wrong["domain"]["domainType"] = "Grid";
    CHECK_THAT(refused(wrong).detail, Contains("a Grid, not a PointSeries"));
  }
  SECTION("many places") {
    wrong["domain"]["axes"]["x"]["values"] = {-1.3, -1.2};
    CHECK_THAT(refused(wrong).detail, Contains("axis x has 2 values, not one"));
  }
  SECTION("ranges that stand elsewhere") {
    wrong["ranges"]["precipitation"] = "http://example.org/rain.covjson";
    CHECK_THAT(refused(wrong).detail, Contains("precipitation is no NdArray"));
  }
  SECTION("text for a number") {
    wrong["ranges"]["precipitation"]["values"][0] = "0.0";
    CHECK(refused(wrong).kind == "not_a_number");
  }
}

TEST_CASE("an axis named so often that its shape overflows reads no value that is not there") {
  json wrong = example_coverage();
  json& rain = wrong["ranges"]["precipitation"];
  // 4 to the 32nd is 2 to the 64th: the shape's product is 0, as many as there are values.
  rain["axisNames"] = json(32, "t");
  rain["shape"] = json(32, 4);
  rain["values"] = json::array();
  CHECK(refused(wrong).kind == "malformed");
  CHECK_THAT(refused(wrong).detail, Contains("precipitation: its shape does not fit the axis 't'"));
}

TEST_CASE("times must rise and reach beyond now") {
  json wrong = example_coverage();
  json& times = wrong["domain"]["axes"]["t"]["values"];
  SECTION("repeated") {
    times[1] = times[0];
    CHECK(refused(wrong).kind == "bad_time");
    CHECK_THAT(refused(wrong).detail, Contains("2026-03-02T12:00:00Z: times must rise"));
  }
  SECTION("falling") {
    times[1] = "2026-03-01T12:00:00Z";
    CHECK(refused(wrong).kind == "bad_time");
  }
  SECTION("without a zone") {
    times[1] = "2026-03-02T18:00:00";
    CHECK(refused(wrong).kind == "bad_time");
  }
  SECTION("with a jump") {
    times.back() = "2026-03-09T12:00:00Z";
    CHECK(refused(wrong).kind == "bad_time");
    CHECK_THAT(refused(wrong).detail, Contains(" jumps ") && Contains("steps are a day at most"));
  }
  SECTION("all past") {
    const DecodedForecast late =
        decode_forecast(example_terms(), example_coverage().dump(), Instant(forecast_day + 30h));
    REQUIRE_FALSE(late.has_value());
    CHECK(to_word(late.error().kind) == "too_old");
    CHECK_THAT(late.error().detail, Contains("ends in the past"));
  }
}

TEST_CASE("a forecast for another place is refused with its distance") {
  json wrong = example_coverage();
  wrong["domain"]["axes"]["y"]["values"] = {54.9};  // a degree of latitude is 111 km
  CHECK_THAT(refused(wrong).detail, Contains("111 km from the farm, 50 km at most"));
  wrong["domain"]["axes"]["y"]["values"] = {54.3};
  CHECK(refused(wrong).kind == "taken");
  wrong["domain"]["axes"]["y"]["values"] = {450000};
  CHECK_THAT(refused(wrong).detail, Contains("in degrees"));
}

TEST_CASE("units are those of the quantity, by their UCUM symbol") {
  json wrong = example_coverage();
  wrong["parameters"]["precipitation"]["unit"]["symbol"]["value"] = "Cel";
  CHECK(refused(wrong).kind == "wrong_unit");
  CHECK_THAT(refused(wrong).detail, Contains("unit Cel for precipitation; known are mm, "));
  wrong["parameters"]["precipitation"].erase("unit");
  CHECK_THAT(refused(wrong).detail, Contains("no unit for precipitation"));
  json inches = example_coverage();
  inches["parameters"]["precipitation"]["unit"]["symbol"]["value"] = "[in_i]";
  CHECK(*decoded(inches)->find(Quantity::rain)->of(0)[1] == Approx(25.4));
}

TEST_CASE("rain that cannot be, and no rain at all, are refused") {
  json wrong = example_coverage();
  wrong["ranges"]["precipitation"]["values"][0] = -1.0;
  CHECK(refused(wrong).kind == "out_of_range");
  wrong["ranges"]["precip"] = example_coverage()["ranges"]["precipitation"];
  wrong["ranges"].erase("precipitation");
  CHECK(refused(wrong).kind == "unmapped");
  CHECK_THAT(refused(wrong).detail, Contains("[forecast.parameters]; not known are precip"));
}

TEST_CASE("a forecast of brackets within brackets is refused before it is parsed") {
  // One level more than is read, and as many as a message may hold.
  for (const std::size_t depth : {std::size_t{65}, largest_forecast_bytes / 2}) {
    const Refused refusal = refused(std::string(depth, '[') + std::string(depth, ']'));
    CHECK(refusal.kind == "malformed");
    CHECK_THAT(refusal.detail, Contains("more than 64 deep"));
  }
  CHECK_THAT(refused(std::string(64, '[') + std::string(64, ']')).detail,
             !Contains("more than 64 deep"));
}

TEST_CASE("no bytes make the decoder throw") {
  for (const char* payload : {"", "nonsense", "{}", "[]", "null", "3", "{\"type\":\"Coverage\"}",
                              "{\"type\":\"Coverage\",\"domain\":{\"axes\":{\"t\":3}}}", "[[[[",
                              "[{\"n\":\"rain\",\"u\":\"mm\",\"v\":1}]"})
    CHECK(refused(std::string(payload)).kind != "taken");
}

TEST_CASE("a pack with times to come is a forecast of one member") {
  // RFC 8428: base fields, times in seconds, here absolute.
  const auto seconds = [](std::chrono::hours after) {
    return std::to_string(
        std::chrono::duration_cast<std::chrono::seconds>((forecast_day + after).time_since_epoch())
            .count());
  };
  const std::string pack = "[{\"bn\":\"model:\",\"bt\":" + seconds(12h) +
                           ",\"n\":\"precipitation\",\"u\":\"mm\",\"v\":0.5},"
                           "{\"n\":\"precipitation\",\"u\":\"mm\",\"t\":21600,\"v\":2},"
                           "{\"n\":\"temperature\",\"u\":\"Cel\",\"t\":0,\"v\":8},"
                           "{\"n\":\"temperature\",\"u\":\"Cel\",\"t\":21600,\"v\":6}]";
  const DecodedForecast forecast = decode_forecast(example_terms(), pack, forecast_came);
  REQUIRE(forecast.has_value());
  CHECK(forecast->members == 1);
  CHECK(forecast->find(Quantity::rain)->times ==
        std::vector<Instant>{forecast_day + 12h, forecast_day + 18h});
  CHECK(*forecast->find(Quantity::temperature)->of(0)[1] == 6.0);
}

TEST_CASE("a pack without units or with falling times is refused") {
  CHECK(refused(
            std::string(R"([{"n":"rain","t":1772460000,"v":1},{"n":"rain","t":1772463600,"v":1}])"))
            .kind == "wrong_unit");
  CHECK(
      refused(
          std::string(
              R"([{"n":"rain","u":"mm","t":1772463600,"v":1},{"n":"rain","u":"mm","t":1772460000,"v":1}])"))
          .kind == "bad_time");
}

TEST_CASE("a forecast of thousands of steps is refused in either form") {
  constexpr int steps = 3000;
  json pack = {
      {{"bt", forecast_came.time_since_epoch() / 1s}, {"bu", "mm"}, {"n", "rain"}, {"v", 0}}};
  json times = {date_text(forecast_day)};
  for (int step = 1; step < steps; ++step) {
    pack.push_back({{"n", "rain"}, {"t", step}, {"v", 0}});
    times.push_back(date_text(forecast_day + std::chrono::days{step}));
  }
  json coverage = example_coverage();
  coverage["domain"]["axes"]["t"]["values"] = times;
  coverage["ranges"] = {{"precipitation",
                         {{"type", "NdArray"},
                          {"axisNames", {"t"}},
                          {"shape", {steps}},
                          {"values", std::vector<int>(steps, 0)}}}};
  for (const json& forecast : {pack, coverage}) {
    CHECK(refused(forecast).kind == "too_large");
    CHECK_THAT(refused(forecast).detail, Contains("rain has more than 2016 times"));
  }
}

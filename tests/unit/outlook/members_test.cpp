#include "model/outlook/members.hpp"

#include <catch2/catch.hpp>
#include <set>

using namespace gley::model;

namespace {

double mean_mm(const RainSpread& spread) {
  constexpr int parts = 200;
  double sum = 0.0;
  for (int i = 0; i < parts; ++i) sum += spread.quantile_mm((i + 0.5) / parts);
  return sum / parts;
}

double dry_share(const RainSpread& spread) {
  constexpr int parts = 1000;
  int dry = 0;
  for (int i = 0; i < parts; ++i) dry += spread.quantile_mm((i + 0.5) / parts) <= 0.0 ? 1 : 0;
  return static_cast<double>(dry) / parts;
}

/// Forecasts of 4 mm, after which nothing fell on one day of four, else 8 mm; and dry ones that
/// came true.
LeadErrors history(int pairs) {
  LeadErrors errors;
  for (int i = 0; i < pairs; ++i) {
    const bool wet = i % 2 == 0;
    errors.rain.push_back(
        {.forecast_mm = wet ? 4.0 : 0.0, .observed_mm = !wet || i % 8 == 0 ? 0.0 : 8.0});
    errors.warmer_c.push_back(2.0);
  }
  return errors;
}

/// Forecasts that know nothing: rain on two days of five whatever was said.
LeadErrors ignorance(int pairs) {
  LeadErrors errors;
  for (int i = 0; i < pairs; ++i)
    errors.rain.push_back(
        {.forecast_mm = i % 2 == 0 ? 4.0 : 0.0, .observed_mm = i / 2 % 5 < 2 ? 6.0 : 0.0});
  return errors;
}

}  // namespace

TEST_CASE("the stated spread has the forecast's own mean, and widens ahead") {
  for (const std::size_t lead : {1u, 3u, 6u})
    CHECK(mean_mm(RainSpread(8.0, lead, {})) == Approx(8.0).epsilon(0.06));
  CHECK(RainSpread(8.0, 6, {}).quantile_mm(0.9) > RainSpread(8.0, 1, {}).quantile_mm(0.9));
  CHECK(RainSpread(8.0, 6, {}).quantile_mm(0.1) < RainSpread(8.0, 1, {}).quantile_mm(0.1));
  CHECK(dry_share(RainSpread(0.0, 1, {})) == Approx(0.89).margin(0.03));
}

TEST_CASE("fewer than 30 pairs change nothing") {
  CHECK(mean_mm(RainSpread(4.0, 1, history(29))) == mean_mm(RainSpread(4.0, 1, {})));
  CHECK(temperature_error_c(0.5, 1, history(29)) == 0.0);
}

TEST_CASE("with a long history the spread is what followed forecasts alike") {
  const RainSpread spread(4.0, 1, history(4000));
  CHECK(dry_share(spread) == Approx(0.25).margin(0.01));
  CHECK(mean_mm(spread) == Approx(6.0).margin(0.1));
  CHECK(temperature_error_c(0.5, 1, history(4000)) == Approx(2.0).margin(0.02));
}

TEST_CASE("past errors carry over in proportion to the forecast") {
  CHECK(mean_mm(RainSpread(2.0, 1, history(4000))) == Approx(3.0).margin(0.1));
}

TEST_CASE("forecasts that know nothing are given the chance of any day") {
  CHECK(pairs_of_no_skill(ignorance(400).rain) == 1000.0);
  CHECK(pairs_of_no_skill(history(400).rain) == 1.0);
  CHECK(dry_share(RainSpread(0.0, 1, ignorance(400))) == Approx(0.6).margin(0.02));
  CHECK(dry_share(RainSpread(4.0, 1, ignorance(400))) == Approx(0.6).margin(0.02));
}

TEST_CASE("members take every rank once a day, and are the same each time") {
  const std::vector<double> rain{6.0, 6.0, 6.0};
  const auto members = make_members(rain, {});
  REQUIRE(members.size() == made_members);
  for (std::size_t day = 0; day < rain.size(); ++day) {
    std::set<double> warmth;
    for (const auto& member : members) warmth.insert(member[day].warmer_c);
    CHECK(warmth.size() == made_members);
  }
  CHECK(make_members(rain, {})[7][2].rain_mm == members[7][2].rain_mm);
}

TEST_CASE("a member that is wet on one day is wet on the next no more than others") {
  const auto members = make_members(std::vector<double>{6.0, 6.0}, {});
  double product = 0.0;
  double first = 0.0;
  double second = 0.0;
  for (const auto& member : members) {
    product += member[0].rain_mm * member[1].rain_mm / made_members;
    first += member[0].rain_mm / made_members;
    second += member[1].rain_mm / made_members;
  }
  CHECK(product == Approx(first * second).epsilon(0.1));
}

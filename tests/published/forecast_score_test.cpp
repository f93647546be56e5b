#include "model/outlook/forecast_score.hpp"

#include <catch2/catch.hpp>

#include "model/outlook/chance.hpp"
#include "model/outlook/normal_quantile.hpp"

using namespace gley::model;

// The worked numbers are small enough to be done by hand from the formulas of the papers named.

TEST_CASE("Murphy (1973): the Brier score is reliability less resolution plus uncertainty") {
  // p .1 four times with one event, .4 four times with two, .8 twice with two.
  const std::vector<ChancePair> pairs{{.1, false}, {.1, false}, {.1, false}, {.1, true},
                                      {.4, false}, {.4, true},  {.4, false}, {.4, true},
                                      {.8, true},  {.8, true}};
  const BrierScore score = brier_score(pairs);
  CHECK(score.pairs == 10);
  CHECK(score.score == Approx(0.1960).margin(5e-5));
  CHECK(score.reliability == Approx(0.0210).margin(5e-5));
  CHECK(score.resolution == Approx(0.0750).margin(5e-5));
  CHECK(score.uncertainty == Approx(0.2500).margin(5e-5));
  CHECK(*score.skill == Approx(0.216).margin(5e-4));
  CHECK(score.reliability - score.resolution + score.uncertainty == Approx(score.score));
}

TEST_CASE("Brier (1950): a score without an event or with nothing else has no skill to tell") {
  CHECK_FALSE(brier_score(std::vector<ChancePair>{{.2, false}, {.1, false}}).skill.has_value());
  CHECK(brier_score({}).pairs == 0);
}

TEST_CASE("Hersbach (2000): the ranked probability score of five members") {
  const std::vector<double> members{0, 2, 5, 8, 20};
  CHECK(crps(members, 6.0) == Approx(1.720).margin(5e-4));
}

TEST_CASE("Hersbach (2000): of one member the score is the absolute error") {
  CHECK(crps(std::vector<double>{9.0}, 6.0) == 3.0);
}

TEST_CASE("Hersbach (2000): the score is the integral of the squared difference") {
  const std::vector<double> members{0, 2, 5, 8, 20};
  constexpr double step = 0.001;
  double integral = 0.0;
  for (double x = step / 2.0; x < 20.0; x += step) {
    double below = 0.0;
    for (const double member : members) below += member <= x ? 0.2 : 0.0;
    const double difference = below - (x >= 6.0 ? 1.0 : 0.0);
    integral += difference * difference * step;
  }
  CHECK(crps(members, 6.0) == Approx(integral).margin(0.01));
}

TEST_CASE("Laplace (1774): 3 of 12 are 0.286, 4 of 20 are 0.227") {
  CHECK(chance_of({.happened = 3, .members = 12}) == Approx(0.286).margin(5e-4));
  CHECK(chance_of({.happened = 4, .members = 20}) == Approx(0.227).margin(5e-4));
}

TEST_CASE("Abramowitz and Stegun (1964) Table 26.5: quantiles of the normal distribution") {
  CHECK(normal_quantile(0.975) == Approx(1.95996).margin(4.5e-4));
  CHECK(normal_quantile(0.9) == Approx(1.28155).margin(4.5e-4));
  CHECK(normal_quantile(0.01) == Approx(-2.32635).margin(4.5e-4));
  CHECK(normal_quantile(0.5) == 0.0);
}

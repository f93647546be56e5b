#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <limits>

#include "model/numeric/elementary.hpp"

// The outside judge is the C library in long double, whose result is right to the last bit of a
// double but for rare ties.
namespace gley::model {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

struct Range {
  double from;
  double to;
  int steps = 200000;
};

struct Pair {
  std::function<double(double)> ours;
  std::function<long double(long double)> judge;
};

/// Largest error over evenly spaced points, relative to the judge, or to `least_size` where the
/// judge is smaller than that.
double worst_error(const Pair& pair, const Range& range, double least_size = 0.0) {
  double worst = 0.0;
  for (int i = 0; i <= range.steps; ++i) {
    const double x = range.from + (range.to - range.from) * i / range.steps;
    const long double want = pair.judge(x);
    const long double size = std::max(std::fabs(want), static_cast<long double>(least_size));
    if (size == 0) continue;
    const long double error = std::fabs(static_cast<long double>(pair.ours(x)) - want) / size;
    if (!(error <= worst)) worst = static_cast<double>(error);
  }
  return worst;
}

const Pair exponentials{exponential, [](long double x) { return std::exp(x); }};
const Pair logarithms{natural_logarithm, [](long double x) { return std::log(x); }};
const Pair sines{sine, [](long double x) { return std::sin(x); }};
const Pair cosines{cosine, [](long double x) { return std::cos(x); }};
const Pair tangents{tangent, [](long double x) { return std::tan(x); }};
const Pair arc_cosines{arc_cosine, [](long double x) { return std::acos(x); }};

}  // namespace

TEST_CASE("the exponential is right to 4e-16 over the whole range of doubles") {
  CHECK(worst_error(exponentials, {-708.0, 709.7}) < 4e-16);
  CHECK(worst_error(exponentials, {-1.0, 1.0}) < 4e-16);
  CHECK(worst_error(exponentials, {-1e-8, 1e-8}) < 4e-16);
}

TEST_CASE("the exponential ends in infinity above, in subnormal numbers and zero below") {
  CHECK(exponential(0.0) == 1.0);
  CHECK(exponential(709.782712893384) < infinity);
  CHECK(exponential(709.7827128933841) == infinity);
  CHECK(exponential(infinity) == infinity);
  CHECK(exponential(-infinity) == 0.0);
  CHECK(exponential(-745.1) == std::exp(-745.1));
  CHECK(exponential(-746.0) == 0.0);
  CHECK(std::fabs(exponential(-720.0) - std::exp(-720.0)) <=
        std::numeric_limits<double>::denorm_min());
  CHECK(std::isnan(exponential(std::nan(""))));
}

TEST_CASE("the logarithm is right to 4e-16 from the smallest to the largest double") {
  CHECK(worst_error(logarithms, {0.5, 2.0}) < 4e-16);
  CHECK(worst_error(logarithms, {0.999999, 1.000001}) < 4e-16);
  CHECK(worst_error(logarithms, {1e-3, 1e3}) < 4e-16);
  const Pair by_exponent{
      [](double x) { return natural_logarithm(std::exp2(x)); },
      [](long double x) {
        return std::log(static_cast<long double>(std::exp2(static_cast<double>(x))));
      }};
  CHECK(worst_error(by_exponent, {-1073.9, 1023.9}) < 4e-16);
}

TEST_CASE("the logarithm knows its edges") {
  CHECK(natural_logarithm(1.0) == 0.0);
  CHECK(natural_logarithm(0.0) == -infinity);
  CHECK(natural_logarithm(infinity) == infinity);
  CHECK(std::isnan(natural_logarithm(-1.0)));
  CHECK(std::isnan(natural_logarithm(std::nan(""))));
  const double smallest = std::numeric_limits<double>::denorm_min();
  CHECK(natural_logarithm(smallest) == Approx(std::log(smallest)).epsilon(1e-15));
}

TEST_CASE("a power is right to 1e-15 for the exponents the model uses") {
  for (const double exponent : {-1.4, -0.3, 0.3, 0.5, 1.15, 1.5, 2.0, 3.0, 5.26}) {
    const Pair powers{
        [exponent](double x) { return power(x, exponent); },
        [exponent](long double x) { return std::pow(x, static_cast<long double>(exponent)); }};
    CAPTURE(exponent);
    CHECK(worst_error(powers, {0.5, 2.0, 20000}) < 1e-15);
    CHECK(worst_error(powers, {1e-3, 1e3, 20000}) < 1e-14);
  }
  CHECK(power(0.0, 0.3) == 0.0);
  CHECK(power(0.0, 0.0) == 1.0);
  CHECK(power(7.0, 0.0) == 1.0);
  CHECK(power(1.0, 1e9) == 1.0);
  CHECK(power(10.0, 400.0) == infinity);
  CHECK(power(0.0, -1.0) == infinity);
  CHECK(std::isnan(power(-1.0, 0.5)));
}

TEST_CASE("sine, cosine and tangent are right to 1e-15 over many turns") {
  for (const Pair& pair : {sines, cosines}) {
    CHECK(worst_error(pair, {-8.0, 8.0}) < 4e-16);
    CHECK(worst_error(pair, {-1e5, 1e5}) < 1e-15);
    CHECK(worst_error(pair, {-1e6, 1e6}) < 1e-15);
  }
  CHECK(worst_error(tangents, {-1.57, 1.57}) < 1e-15);
  CHECK(worst_error(tangents, {-1e5, 1e5}) < 1e-15);
  CHECK(sine(pi) == Approx(std::sin(pi)).epsilon(1e-15));
  CHECK(cosine(pi / 2) == Approx(std::cos(pi / 2)).epsilon(1e-15));
}

TEST_CASE("angles beyond a million radians have no sine") {
  CHECK_FALSE(std::isnan(sine(largest_angle_rad)));
  CHECK(std::isnan(sine(1.1e6)));
  CHECK(std::isnan(cosine(-1.1e6)));
  CHECK(std::isnan(tangent(infinity)));
  CHECK(std::isnan(sine(std::nan(""))));
}

TEST_CASE("the arc cosine is right to 1e-15 and ends at 0 and pi") {
  CHECK(worst_error(arc_cosines, {-1.0, 1.0}) < 1e-15);
  CHECK(worst_error(arc_cosines, {0.999999, 1.0}) < 1e-15);
  CHECK(worst_error(arc_cosines, {-1.0, -0.999999}) < 1e-15);
  CHECK(arc_cosine(1.0) == 0.0);
  CHECK(arc_cosine(-1.0) == pi);
  CHECK(std::isnan(arc_cosine(1.0000001)));
  CHECK(std::isnan(arc_cosine(-1.0000001)));
  CHECK(std::isnan(arc_cosine(std::nan(""))));
}

}  // namespace gley::model

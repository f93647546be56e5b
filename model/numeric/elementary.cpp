#include "model/numeric/elementary.hpp"

#include <array>
#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>

// Every polynomial is a Taylor series cut where the next term is below a tenth of a unit in the
// last place. std::sqrt is the processor's own, correctly rounded.
namespace gley::model {
namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();
constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

// ln 2 and pi/2 in pieces short enough that a whole multiple of each but the last is exact.
constexpr double ln2_high = 0x1.62e42fefa2000p-1;
constexpr double ln2_low = 0x1.9ef35793c7673p-41;
constexpr double half_pi_high = 0x1.921fb54000000p+0;
constexpr double half_pi_middle = 0x1.10b4611800000p-30;
constexpr double half_pi_low = 0x1.313198a2e0370p-61;
constexpr double half_pi = 1.57079632679489661923;

/// c[0] + x c[1] + x^2 c[2] + ...
template <std::size_t n>
double polynomial(double x, const std::array<double, n>& coefficients) noexcept {
  double sum = coefficients[n - 1];
  for (std::size_t i = n - 1; i-- > 0;) sum = sum * x + coefficients[i];
  return sum;
}

int nearest_integer(double x) noexcept {
  return static_cast<int>(x < 0.0 ? x - 0.5 : x + 0.5);
}

/// 2^exponent for the exponents of normal numbers, -1022..1023.
double power_of_two(int exponent) noexcept {
  return std::bit_cast<double>(static_cast<std::uint64_t>(exponent + 1023) << 52);
}

struct Binary {
  double mantissa;  ///< sqrt(1/2)..sqrt(2)
  int exponent;
};

Binary split(double positive) noexcept {
  const bool subnormal = positive < std::numeric_limits<double>::min();
  const auto bits = std::bit_cast<std::uint64_t>(subnormal ? positive * 0x1p54 : positive);
  const int exponent = static_cast<int>(bits >> 52) - 1023 - (subnormal ? 54 : 0);
  const double mantissa = std::bit_cast<double>((bits & 0xfffffffffffffu) | 0x3ff0000000000000u);
  if (mantissa > 1.41421356237309505) return {mantissa * 0.5, exponent + 1};
  return {mantissa, exponent};
}

struct SineCosine {
  double sine;
  double cosine;
};

/// Both for an angle within -pi/4..pi/4.
SineCosine of_small_angle(double r) noexcept {
  static constexpr std::array sine_terms{
      -1.0 / 6,        1.0 / 120,        -1.0 / 5040,         1.0 / 362880,
      -1.0 / 39916800, 1.0 / 6227020800, -1.0 / 1307674368e3, 1.0 / 355687428096e3};
  static constexpr std::array cosine_terms{1.0 / 24,           -1.0 / 720,      1.0 / 40320,
                                           -1.0 / 3628800,     1.0 / 479001600, -1.0 / 87178291200,
                                           1.0 / 20922789888e3};
  const double square = r * r;
  return {r + r * square * polynomial(square, sine_terms),
          1.0 - (0.5 * square - square * square * polynomial(square, cosine_terms))};
}

/// Both for any angle up to the limit where reduction by pi/2 keeps all digits.
SineCosine of_angle(double angle_rad) noexcept {
  if (!(std::fabs(angle_rad) <= largest_angle_rad)) return {not_a_number, not_a_number};
  const int quarters = nearest_integer(angle_rad / half_pi);
  const double n = quarters;
  const auto [s, c] =
      of_small_angle(((angle_rad - n * half_pi_high) - n * half_pi_middle) - n * half_pi_low);
  switch (static_cast<unsigned>(quarters) & 3u) {
    case 0:
      return {s, c};
    case 1:
      return {c, -s};
    case 2:
      return {-s, -c};
    default:
      return {-c, s};
  }
}

/// Arc tangent of 0..1: the angle is halved twice by tan(a/2) = t / (1 + sqrt(1 + t^2)).
double arc_tangent_to_one(double t) noexcept {
  static constexpr std::array terms{-1.0 / 3,  1.0 / 5,  -1.0 / 7,  1.0 / 9,  -1.0 / 11, 1.0 / 13,
                                    -1.0 / 15, 1.0 / 17, -1.0 / 19, 1.0 / 21, -1.0 / 23};
  for (int halving = 0; halving < 2; ++halving) t = t / (1.0 + std::sqrt(1.0 + t * t));
  const double square = t * t;
  return 4.0 * (t + t * square * polynomial(square, terms));
}

}  // namespace

double exponential(double x) noexcept {
  if (std::isnan(x)) return x;
  if (x > 709.782712893384) return infinity;  // ln of the largest double
  if (x < -745.2) return 0.0;                 // below half the smallest double
  static constexpr std::array terms{
      1.0 / 2,     1.0 / 6,      1.0 / 24,      1.0 / 120,      1.0 / 720,       1.0 / 5040,
      1.0 / 40320, 1.0 / 362880, 1.0 / 3628800, 1.0 / 39916800, 1.0 / 479001600, 1.0 / 6227020800};
  const int twos = nearest_integer(x / (ln2_high + ln2_low));
  const double n = twos;
  const double r = (x - n * ln2_high) - n * ln2_low;
  const double of_r = 1.0 + (r + r * r * polynomial(r, terms));
  // In two steps, for 2^twos alone may be beyond the range of normal numbers.
  const int half = twos / 2;
  return of_r * power_of_two(half) * power_of_two(twos - half);
}

double natural_logarithm(double x) noexcept {
  if (std::isnan(x) || x == infinity) return x;
  if (x < 0.0) return not_a_number;
  if (x == 0.0) return -infinity;
  static constexpr std::array terms{2.0 / 3,  2.0 / 5,  2.0 / 7,  2.0 / 9,  2.0 / 11,
                                    2.0 / 13, 2.0 / 15, 2.0 / 17, 2.0 / 19, 2.0 / 21};
  const auto [mantissa, exponent] = split(x);
  // ln(1 + f) = 2 s + s p with s = f / (2 + f) and p = 2/3 s^2 + 2/5 s^4 + ...; as 2 s = f - s f
  // this is f - s (f - p), where rounding in s counts for little.
  const double f = mantissa - 1.0;
  const double s = f / (2.0 + f);
  const double square = s * s;
  const double p = square * polynomial(square, terms);
  const double n = exponent;
  return n * ln2_high + (f - (s * (f - p) - n * ln2_low));
}

double power(double base, double exponent) noexcept {
  if (exponent == 0.0) return 1.0;
  if (base == 0.0 && exponent > 0.0) return 0.0;
  return exponential(exponent * natural_logarithm(base));
}

double sine(double angle_rad) noexcept {
  return of_angle(angle_rad).sine;
}

double cosine(double angle_rad) noexcept {
  return of_angle(angle_rad).cosine;
}

double tangent(double angle_rad) noexcept {
  const auto [s, c] = of_angle(angle_rad);
  return s / c;
}

double arc_cosine(double x) noexcept {
  if (!(x >= -1.0 && x <= 1.0)) return not_a_number;
  // tan(a/2) = sqrt((1 - x) / (1 + x)); the larger half of the range from its complement.
  if (x >= 0.0) return 2.0 * arc_tangent_to_one(std::sqrt((1.0 - x) / (1.0 + x)));
  return pi - 2.0 * arc_tangent_to_one(std::sqrt((1.0 + x) / (1.0 - x)));
}

}  // namespace gley::model

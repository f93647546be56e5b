#pragma once

/// Elementary functions written once for the whole model. The C library picks a path by the CPU it
/// finds and the paths differ in the last bit, so the same history would give different bytes on
/// another machine. These use only additions, multiplications, divisions and square roots, which
/// IEEE 754 fixes to the bit. Relative error against a correctly rounded result: below 4e-16 for
/// exponential and logarithm, 1e-15 for the others while a power's exponent times logarithm stays
/// below 4, checked in tests/unit.
namespace gley::model {

[[nodiscard]] double exponential(double x) noexcept;        ///< e^x
[[nodiscard]] double natural_logarithm(double x) noexcept;  ///< ln x; NaN below 0, -inf at 0
/// base > 0, or 0 with exponent > 0; below 0 NaN
[[nodiscard]] double power(double base, double exponent) noexcept;
/// Largest angle, either way, for which sine, cosine and tangent are given; beyond it NaN.
inline constexpr double largest_angle_rad = 1e6;
[[nodiscard]] double sine(double angle_rad) noexcept;
[[nodiscard]] double cosine(double angle_rad) noexcept;
[[nodiscard]] double tangent(double angle_rad) noexcept;
[[nodiscard]] double arc_cosine(double x) noexcept;  ///< -1..1, otherwise NaN

inline constexpr double pi = 3.14159265358979323846;

[[nodiscard]] constexpr double least(double a, double b) noexcept {
  return a < b ? a : b;
}
[[nodiscard]] constexpr double greatest(double a, double b) noexcept {
  return a < b ? b : a;
}
/// `value` held to low..high; of several lanes too (lane.hpp), by their own least and greatest.
template <class V>
[[nodiscard]] constexpr V held_between(const V& low, const V& value, const V& high) noexcept {
  return greatest(low, least(value, high));
}

}  // namespace gley::model

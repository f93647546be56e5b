#pragma once
#include "model/numeric/lane.hpp"
#include "model/numeric/native_vector.hpp"

/// Several fields side by side: the lane type of the batch (lane.hpp says what it must offer).
/// `parts` native vectors of doubles, one field a double; with two parts one works while the other
/// waits for its division. Each operation is that of double, lane by lane, so every lane gives the
/// bytes that double gives. Needs the vector extension of GCC and Clang.
namespace gley::model {

/// `Vector` is one of native_vector.hpp, made of a type of the source file's own unnamed namespace.
/// That keeps all that is made of these lanes inside the file: files compiled for different
/// processors would otherwise share one copy of each template, and the linker might keep the one
/// that the processor at hand cannot run.
template <class Vector, int parts>
struct Lanes {
  using Native = typename Vector::Native;
  using Bits = decltype(Native{} < Native{});
  struct Mask {
    Bits part[parts];
  };

  static constexpr int count = Vector::width * parts;
  Native part[parts];

  Lanes() = default;
  Lanes(double value) {  // not explicit: a number stands for all its lanes
    for (Native& p : part) p = value - Native{};
  }

  [[nodiscard]] static Lanes load(const double* values) {
    Lanes lanes;
    for (int i = 0; i < parts; ++i)
      __builtin_memcpy(&lanes.part[i], values + i * Vector::width, sizeof(Native));
    return lanes;
  }
  void store(double* values) const {
    for (int i = 0; i < parts; ++i)
      __builtin_memcpy(values + i * Vector::width, &part[i], sizeof(Native));
  }

  friend Lanes operator+(const Lanes& a, const Lanes& b) {
    Lanes sum;
    for (int i = 0; i < parts; ++i) sum.part[i] = a.part[i] + b.part[i];
    return sum;
  }
  friend Lanes operator-(const Lanes& a, const Lanes& b) {
    Lanes difference;
    for (int i = 0; i < parts; ++i) difference.part[i] = a.part[i] - b.part[i];
    return difference;
  }
  friend Lanes operator*(const Lanes& a, const Lanes& b) {
    Lanes product;
    for (int i = 0; i < parts; ++i) product.part[i] = a.part[i] * b.part[i];
    return product;
  }
  friend Lanes operator/(const Lanes& a, const Lanes& b) {
    Lanes quotient;
    for (int i = 0; i < parts; ++i) quotient.part[i] = a.part[i] / b.part[i];
    return quotient;
  }
  friend Mask operator<(const Lanes& a, const Lanes& b) {
    Mask mask;
    for (int i = 0; i < parts; ++i) mask.part[i] = a.part[i] < b.part[i];
    return mask;
  }
  friend Mask operator>(const Lanes& a, const Lanes& b) { return b < a; }

  friend Lanes select(const Mask& mask, const Lanes& a, const Lanes& b) {
    Lanes chosen;
    for (int i = 0; i < parts; ++i) chosen.part[i] = mask.part[i] ? a.part[i] : b.part[i];
    return chosen;
  }
  friend bool any(const Mask& mask) {
    bool in_any = false;
    for (int i = 0; i < parts; ++i) in_any |= Vector::any(reinterpret_cast<Native>(mask.part[i]));
    return in_any;
  }
  friend Lanes least(const Lanes& a, const Lanes& b) {
    Lanes smaller;
    for (int i = 0; i < parts; ++i) smaller.part[i] = Vector::least(a.part[i], b.part[i]);
    return smaller;
  }
  friend Lanes greatest(const Lanes& a, const Lanes& b) {
    Lanes larger;
    for (int i = 0; i < parts; ++i) larger.part[i] = Vector::greatest(a.part[i], b.part[i]);
    return larger;
  }
};

}  // namespace gley::model

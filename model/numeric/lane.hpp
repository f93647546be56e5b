#pragma once
#include "model/numeric/elementary.hpp"

/// One lane: what a formula of the daily step may ask of its number type, so that the same text
/// serves one field (double) and several fields side by side (a vector type of the batch). Beside
/// + - * / and comparisons a lane type V has these free functions, and V(double) fills all lanes.
/// A formula on V takes no branch on one lane's value: both sides of a choice are computed and one
/// is selected, so the side not taken may be infinite or NaN. `any` lets work be passed over that
/// would change no lane, to the bit.
namespace gley::model {

/// `a` where the mask holds, otherwise `b`.
[[nodiscard]] constexpr double select(bool mask, double a, double b) noexcept {
  return mask ? a : b;
}

/// Whether a mask holds in any lane.
[[nodiscard]] constexpr bool any(bool mask) noexcept {
  return mask;
}

}  // namespace gley::model

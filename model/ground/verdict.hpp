#pragma once
#include <string_view>

namespace gley::model {

/// A machine on a field.
enum class Verdict { carries, with_care, keep_off, not_known };

[[nodiscard]] constexpr std::string_view to_word(Verdict verdict) {
  switch (verdict) {
    case Verdict::carries:
      return "carries";
    case Verdict::with_care:
      return "with care";
    case Verdict::keep_off:
      return "keep off";
    case Verdict::not_known:
      return "not known";
  }
  return {};
}

}  // namespace gley::model

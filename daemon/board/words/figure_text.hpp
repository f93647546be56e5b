#pragma once
#include <string>
#include <string_view>

/// Numbers as a person reads them, the same under every locale.
namespace gley::daemon {

/// The nearest multiple of `step` (1, 0.1, 0.01, ...), never a negative zero; NaN stays NaN.
[[nodiscard]] double round_to(double value, double step);

/// Shortest digits that read back to the same double; "not known" unless finite.
[[nodiscard]] std::string decimal_text(double value);

/// "14 mm", "3.4 mm", "0 mm": whole from 10 up, one decimal below, as finer is not known.
[[nodiscard]] std::string mm_text(double value_mm);

/// The same without its unit, for a column whose head names it: "14", "3.4", "0".
[[nodiscard]] std::string mm_digits(double value_mm);

/// The number the text begins with, or `fallback` if it begins with none.
[[nodiscard]] double number_or(std::string_view text, double fallback);

/// "38 %" of a fraction 0.38.
[[nodiscard]] std::string percent_text(double fraction);

}  // namespace gley::daemon

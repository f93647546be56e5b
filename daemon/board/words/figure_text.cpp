#include "daemon/board/words/figure_text.hpp"

#include <array>
#include <charconv>
#include <cmath>

namespace gley::daemon {
namespace {

std::string fixed_text(double value, int decimals) {
  std::array<char, 400> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value,
                                 std::chars_format::fixed, decimals);
  return {digits.data(), end.ptr};
}

}  // namespace

double round_to(double value, double step) {
  // Dividing by the whole number of steps in one keeps 0.3 at 0.3; multiplying by 0.1 would not.
  const double steps_in_one = std::round(1.0 / step);
  return std::round(value * steps_in_one) / steps_in_one + 0.0;
}

std::string decimal_text(double value) {
  if (!std::isfinite(value)) return "not known";
  std::array<char, 400> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), value);
  return {digits.data(), end.ptr};
}

std::string mm_digits(double value_mm) {
  if (!std::isfinite(value_mm)) return "not known";
  const double tenths = round_to(value_mm, 0.1);
  if (tenths == 0.0) return "0";
  if (std::fabs(tenths) < 10.0) return fixed_text(tenths, 1);
  return fixed_text(round_to(value_mm, 1.0), 0);
}

std::string mm_text(double value_mm) {
  const std::string digits = mm_digits(value_mm);
  return std::isfinite(value_mm) ? digits + " mm" : digits;
}

double number_or(std::string_view text, double fallback) {
  double value = 0.0;
  const auto end = std::from_chars(text.data(), text.data() + text.size(), value);
  return end.ec == std::errc{} ? value : fallback;
}

std::string percent_text(double fraction) {
  if (!std::isfinite(fraction)) return "not known";
  return fixed_text(round_to(fraction * 100.0, 1.0), 0) + " %";
}

}  // namespace gley::daemon

#pragma once
#include <initializer_list>
#include <optional>
#include <string>

#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// The value a word stands for, by to_word.
template <class Enum>
[[nodiscard]] std::optional<Enum> from_word(const std::optional<std::string>& word,
                                            std::initializer_list<Enum> values) {
  for (const Enum value : values) {
    if (word && to_word(value) == *word) return value;
  }
  return std::nullopt;
}

inline constexpr std::initializer_list<Quantity> all_quantities{
    Quantity::rain, Quantity::temperature, Quantity::humidity,  Quantity::dew_point,
    Quantity::wind, Quantity::sunshine,    Quantity::radiation, Quantity::irrigation};

[[nodiscard]] inline std::optional<Quantity> quantity_from(const std::optional<std::string>& word) {
  return from_word(word, all_quantities);
}

[[nodiscard]] inline std::optional<ReadingForm> form_from(const std::optional<std::string>& word) {
  using enum ReadingForm;
  return from_word(word, {interval, counter, rate, instant});
}

}  // namespace gley::daemon

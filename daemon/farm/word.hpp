#pragma once
#include <algorithm>
#include <array>
#include <cstddef>
#include <optional>
#include <string_view>

#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// The words for the values of an enum, in the order of the values, which count from 0. Settings,
/// topics, metrics and the store have them from here.
template <class Enum>
inline constexpr std::array<std::string_view, 0> words_for{};

template <>
inline constexpr auto words_for<Quantity> =
    std::to_array<std::string_view>({"rain", "temperature", "humidity", "dew_point", "wind",
                                     "sunshine", "radiation", "irrigation"});
template <>
inline constexpr auto words_for<ReadingForm> =
    std::to_array<std::string_view>({"interval", "counter", "rate", "instant"});
template <>
inline constexpr auto words_for<DrainageClass> =
    std::to_array<std::string_view>({"free", "moderate", "slow", "poor"});
template <>
inline constexpr auto words_for<MaterialKind> =
    std::to_array<std::string_view>({"mineral fertiliser", "slurry", "solid manure", "spray"});
template <>
inline constexpr auto words_for<model::Tread> = std::to_array<std::string_view>({"wheels", "tracks",
                                                                                 "hooves"});
template <>
inline constexpr auto words_for<Durability> = std::to_array<std::string_view>({"power", "process"});

template <class Enum>
concept HasWords = !words_for<Enum>.empty();

/// What to_word gives of a value.
template <HasWords Enum>
[[nodiscard]] constexpr std::string_view word_of(Enum value) {
  return words_for<Enum>.at(static_cast<std::size_t>(value));
}

/// The value a word stands for.
template <HasWords Enum>
[[nodiscard]] constexpr std::optional<Enum> from_word(std::string_view word) {
  const auto& words = words_for<Enum>;
  const auto* found = std::find(words.begin(), words.end(), word);
  if (found == words.end()) return {};
  return static_cast<Enum>(found - words.begin());
}

}  // namespace gley::daemon

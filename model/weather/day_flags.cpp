#include "model/weather/day_flags.hpp"

#include <array>
#include <string_view>
#include <utility>

namespace gley::model {
namespace {

using enum DayFlag;
constexpr std::array<std::pair<DayFlag, std::string_view>, 15> words{{
    {day_missing, "day_missing"},
    {rain_missing, "rain_missing"},
    {rain_partial, "rain_partial"},
    {temperature_missing, "temperature_missing"},
    {temperature_estimated, "temperature_estimated"},
    {humidity_estimated, "humidity_estimated"},
    {radiation_estimated, "radiation_estimated"},
    {radiation_doubtful, "radiation_doubtful"},
    {wind_estimated, "wind_estimated"},
    {et0_given, "et0_given"},
    {et0_negative, "et0_negative"},
    {et0_missing, "et0_missing"},
    {start_assumed, "start_assumed"},
    {frozen, "frozen"},
    {snow, "snow"},
}};

}  // namespace

std::string to_words(DayFlags flags) {
  std::string joined;
  for (const auto& [flag, word] : words) {
    if (!flags.has(flag)) continue;
    if (!joined.empty()) joined += ';';
    joined += word;
  }
  return joined;
}

}  // namespace gley::model

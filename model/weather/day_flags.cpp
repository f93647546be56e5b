#include "model/weather/day_flags.hpp"

#include <array>
#include <string_view>
#include <utility>

namespace gley::model {
namespace {

using enum DayFlag;
constexpr std::array<std::pair<DayFlag, std::string_view>, 24> words{{
    {day_missing, "day_missing"},
    {rain_missing, "rain_missing"},
    {rain_partial, "rain_partial"},
    {rain_doubtful, "rain_doubtful"},
    {rain_borrowed, "rain_borrowed"},
    {temperature_missing, "temperature_missing"},
    {temperature_estimated, "temperature_estimated"},
    {temperature_doubtful, "temperature_doubtful"},
    {temperature_borrowed, "temperature_borrowed"},
    {humidity_estimated, "humidity_estimated"},
    {humidity_doubtful, "humidity_doubtful"},
    {humidity_borrowed, "humidity_borrowed"},
    {radiation_estimated, "radiation_estimated"},
    {radiation_doubtful, "radiation_doubtful"},
    {radiation_borrowed, "radiation_borrowed"},
    {wind_estimated, "wind_estimated"},
    {wind_doubtful, "wind_doubtful"},
    {wind_borrowed, "wind_borrowed"},
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

#pragma once
#include <optional>

#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"
#include "model/weather/vapour_pressure.hpp"

namespace gley::model {

/// A day's weather with its gaps filled as far as that may be done, and what was filled.
struct CompletedWeather {
  DailyWeather weather;
  DayFlags flags;
};

/// Fills the gaps that the water balance cannot do without:
/// - rain absent: 0 mm, flagged rain_missing;
/// - Tmin, Tmax or both absent and no et0_mm: the last known day's, flagged temperature_estimated.
///   If one extreme is known and the other would then pass it, the other is set equal to it. Never
///   known: left absent, flagged temperature_missing;
/// - a day with et0_mm and without both temperatures: left without, flagged temperature_missing,
///   for its ET needs none and no frost shall be invented;
/// - nothing known at all: day_missing beside the flags above.
/// Wind, humidity and radiation have their own fallbacks in reference_et().
/// `last_known` is of the last day with both extremes measured. Tmin above Tmax on one day is the
/// caller's error.
[[nodiscard]] CompletedWeather complete_weather(const DailyWeather& weather,
                                                const std::optional<TemperatureRange>& last_known);

/// Both extremes, where both are known.
[[nodiscard]] std::optional<TemperatureRange> extremes_of(const DailyWeather& weather);

/// The temperatures to pass as `last_known` for the next day.
[[nodiscard]] std::optional<TemperatureRange> known_temperatures(
    const DailyWeather& weather, const std::optional<TemperatureRange>& before);

}  // namespace gley::model

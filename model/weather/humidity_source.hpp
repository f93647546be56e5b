#pragma once
#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"
#include "model/weather/vapour_pressure.hpp"

namespace gley::model {

struct VapourPressure {
  double ea_kpa = 0.0;
  DayFlags flags;
};

/// A day's actual vapour pressure from the best humidity there is, in the order of Box 7 of Allen
/// et al. (1998), FAO Irrigation and Drainage Paper 56: dew point (Eq. 14), both extremes of the
/// relative humidity (Eq. 17), the greatest (Eq. 18), the mean (Eq. 19); without any, the site's
/// dew point offset, else Tmin for the dew point (Eq. 48), either flagged humidity_estimated.
/// A humidity over 100 %, as sensors read in fog, is taken as 100; one of 0 % or less as not
/// measured.
/// The offset's dew point may lie above Tmin and is not held to it: at humid stations it does on
/// most days, and that is what the offset is for. ET0 over the Penman-Monteith PE that Met Eireann
/// publishes (1979-2025, daily): Dublin Airport 1.18 with Tmin, 1.04 with -2.5 (77 % of days above
/// Tmin); Shannon Airport 1.09 and 1.00. An offset above 0 would mean air over-saturated all day,
/// an error of configuration.
[[nodiscard]] VapourPressure actual_vapour_pressure(const Site& site, const DailyWeather& weather,
                                                    const TemperatureRange& temperature);

/// A relative humidity fit for use: over 0, at most 100.
[[nodiscard]] std::optional<double> usable_humidity_pct(
    std::optional<double> measured_pct) noexcept;

}  // namespace gley::model

#pragma once
#include "model/weather/daily_weather.hpp"
#include "model/weather/day_flags.hpp"
#include "model/weather/vapour_pressure.hpp"

namespace gley::model {

/// What the sky allows on a day.
struct SkyLimits {
  double ra_mj_m2 = 0.0;   ///< on top of the atmosphere
  double rso_mj_m2 = 0.0;  ///< at the ground, clear sky
  double daylight_h = 0.0;
};

struct SolarRadiation {
  double rs_mj_m2 = 0.0;
  DayFlags flags;
};

/// Measured radiation is doubtful from this share of a clear sky's, if also by more than 0.5 MJ m-2
/// (short winter days). Ours, from 19,288 station-days of Met Eireann (Valentia, Johnstown Castle,
/// Moore Park): one in a thousand is above 1.03; ten are above 1.10, up to 2.8.
inline constexpr double doubtful_share_of_clear_sky = 1.10;
inline constexpr double doubtful_excess_mj_m2 = 0.5;

/// A day's solar radiation from the best source there is: measured, else sunshine hours (Eq. 35 of
/// Allen et al. 1998, FAO Irrigation and Drainage Paper 56), else the range of temperature (Eq. 50
/// with the site's krs, at most Rso, flagged radiation_estimated).
/// Flagged radiation_doubtful: measured radiation well above Rso, used as it is but never above Ra,
/// which no ground receives; sunshine longer than the day, taken as the whole day. Negative values
/// are taken as not measured.
[[nodiscard]] SolarRadiation solar_radiation(const Site& site, const DailyWeather& weather,
                                             const TemperatureRange& temperature,
                                             const SkyLimits& sky);

}  // namespace gley::model

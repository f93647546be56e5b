#pragma once
#include <optional>

namespace gley::model {

/// Where a weather station stands and how it measures.
struct Site {
  double latitude_deg = 0.0;   ///< north positive
  double elevation_m = 0.0;    ///< above sea level
  double wind_height_m = 2.0;  ///< height of the anemometer above ground
  double krs = 0.16;  ///< radiation coefficient of FAO-56 Eq. 50; 0.16 interior, 0.19 coast
  /// Dew point less the day's mean temperature, degC, where humidity is never measured but its
  /// offset is known; absent: Tmin stands for the dew point (Eq. 48).
  std::optional<double> dew_point_offset_c = {};
};

/// One farm day's weather as far as it is known. Absent means not measured.
struct DailyWeather {
  std::optional<double> rain_mm = {};
  std::optional<double> tmin_c = {};
  std::optional<double> tmax_c = {};
  std::optional<double> tmean_c = {};  ///< kept for the record; FAO-56 Eq. 9 uses Tmin and Tmax
  std::optional<double> rh_min_pct = {};
  std::optional<double> rh_max_pct = {};
  std::optional<double> rh_mean_pct = {};
  std::optional<double> dew_point_c = {};
  std::optional<double> wind_m_s = {};  ///< mean at the station's wind height
  std::optional<double> sun_h = {};     ///< hours of bright sunshine
  std::optional<double> solar_mj_m2 = {};
  std::optional<double> et0_mm = {};  ///< overrides the computed reference ET
  std::optional<double> irrigation_mm = {};

  friend bool operator==(const DailyWeather&, const DailyWeather&) = default;
};

[[nodiscard]] inline bool has_humidity(const DailyWeather& day) {
  return day.dew_point_c || day.rh_mean_pct || day.rh_min_pct || day.rh_max_pct;
}

/// All that tells of humidity, and nothing of what stood there before.
inline void take_humidity(DailyWeather& day, const DailyWeather& from) {
  day.rh_min_pct = from.rh_min_pct;
  day.rh_max_pct = from.rh_max_pct;
  day.rh_mean_pct = from.rh_mean_pct;
  day.dew_point_c = from.dew_point_c;
}

}  // namespace gley::model

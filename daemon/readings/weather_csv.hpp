#pragma once
#include <chrono>
#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include "model/weather/daily_weather.hpp"

namespace gley::daemon {

/// Daily weather by date, as a file or the store holds it.
using WeatherByDay = std::map<std::chrono::sys_days, model::DailyWeather>;

/// A weather file read whole. With any problem the days are not to be used.
struct WeatherFile {
  WeatherByDay days;
  std::vector<std::string> problems;  ///< "file:line: message"
};

/// Reads daily weather from CSV (RFC 4180): a header naming the columns date, rain_mm, tmin_c,
/// tmax_c, tmean_c, rh_min_pct, rh_max_pct, rh_mean_pct, dew_point_c, wind_m_s, sun_h, solar_mj_m2,
/// et0_mm, irrigation_mm in any order, date among them; a blank cell is a missing value. Named as
/// problems: an unknown or repeated column, a bad or repeated date, a row of the wrong length, a
/// number that is none or cannot be (negative rain, Tmin over Tmax).
[[nodiscard]] WeatherFile read_weather_csv(const std::filesystem::path& file);
[[nodiscard]] WeatherFile parse_weather_csv(const std::string& text, const std::string& name);

}  // namespace gley::daemon

#include "daemon/store/loaded_days.hpp"

namespace gley::daemon {

LoadedDays::LoadedDays(Database& database)
    : database_(database),
      put_(database.prepare(
          "INSERT OR REPLACE INTO loaded_day(station, date, rain_mm, tmin_c, tmax_c, tmean_c,"
          " rh_min_pct, rh_max_pct, rh_mean_pct, dew_point_c, wind_m_s, sun_h, solar_mj_m2, et0_mm,"
          " irrigation_mm, loaded_ms) VALUES(?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)")),
      all_(database.prepare(
          "SELECT date, rain_mm, tmin_c, tmax_c, tmean_c, rh_min_pct, rh_max_pct, rh_mean_pct,"
          " dew_point_c, wind_m_s, sun_h, solar_mj_m2, et0_mm, irrigation_mm"
          " FROM loaded_day WHERE station = ? ORDER BY date")) {}

void LoadedDays::put(std::string_view station, const DaysOfWeather& days, Instant loaded) {
  Transaction transaction(database_);
  for (const auto& [date, day] : days) {
    put_.run(station, date, day.rain_mm, day.tmin_c, day.tmax_c, day.tmean_c, day.rh_min_pct,
             day.rh_max_pct, day.rh_mean_pct, day.dew_point_c, day.wind_m_s, day.sun_h,
             day.solar_mj_m2, day.et0_mm, day.irrigation_mm, loaded);
  }
  transaction.commit();
}

DaysOfWeather LoadedDays::all(std::string_view station) {
  DaysOfWeather days;
  const auto take = [&](const Row& row) {
    days[row.date(0)] = {.rain_mm = row.optional_real(1),
                         .tmin_c = row.optional_real(2),
                         .tmax_c = row.optional_real(3),
                         .tmean_c = row.optional_real(4),
                         .rh_min_pct = row.optional_real(5),
                         .rh_max_pct = row.optional_real(6),
                         .rh_mean_pct = row.optional_real(7),
                         .dew_point_c = row.optional_real(8),
                         .wind_m_s = row.optional_real(9),
                         .sun_h = row.optional_real(10),
                         .solar_mj_m2 = row.optional_real(11),
                         .et0_mm = row.optional_real(12),
                         .irrigation_mm = row.optional_real(13)};
  };
  all_.visit(take, station);
  return days;
}

}  // namespace gley::daemon

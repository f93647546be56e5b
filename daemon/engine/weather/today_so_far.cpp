#include "daemon/engine/weather/today_so_far.hpp"

#include <algorithm>

#include "model/weather/wind.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;

void fill(std::optional<double>& value, const std::optional<double>& otherwise) {
  if (!value) value = otherwise;
}

/// A forecast's day as the station would tell it: wind at the station's height. A forecast by the
/// day gives a mean temperature; extremes stand about it as far as they last did.
DailyWeather as_at_station(const TodaySoFar& today, DailyWeather day) {
  const double height_m = today.site.wind_height_m;
  if (day.wind_m_s && height_m != 2.0) *day.wind_m_s /= model::wind_factor_to_2m(height_m);
  const std::optional<model::TemperatureRange>& last = today.last_known;
  if (day.tmin_c || !day.tmean_c || !last) return day;
  const double half_range_c = (last->tmax_c - last->tmin_c) / 2.0;
  day.tmin_c = *day.tmean_c - half_range_c;
  day.tmax_c = *day.tmean_c + half_range_c;
  return day;
}

void widen(DailyWeather& day, const DailyWeather& by) {
  if (!by.tmin_c || !by.tmax_c) return;
  day.tmin_c = std::min(day.tmin_c.value_or(*by.tmin_c), *by.tmin_c);
  day.tmax_c = std::max(day.tmax_c.value_or(*by.tmax_c), *by.tmax_c);
}

DailyWeather joined(const TodaySoFar& today, const DailyWeather& expected) {
  const DailyWeather yesterday = today.yesterday.value_or(DailyWeather{});
  const bool forecast_has_extremes = expected.tmin_c && expected.tmax_c;
  DailyWeather day = today.seen;
  if (expected.rain_mm) day.rain_mm = day.rain_mm.value_or(0.0) + *expected.rain_mm;
  if (!has_humidity(day)) take_humidity(day, has_humidity(expected) ? expected : yesterday);
  fill(day.wind_m_s, expected.wind_m_s);
  fill(day.wind_m_s, yesterday.wind_m_s);
  const bool forecast_has_sun = expected.sun_h || expected.solar_mj_m2;
  if (forecast_has_sun || today.yesterday) {
    day.sun_h = forecast_has_sun ? expected.sun_h : yesterday.sun_h;
    day.solar_mj_m2 = forecast_has_sun ? expected.solar_mj_m2 : yesterday.solar_mj_m2;
  }
  widen(day, forecast_has_extremes ? expected : yesterday);
  if (!day.tmin_c && today.yesterday) day.et0_mm = yesterday.et0_mm;
  return day;
}

/// Where no temperature was ever known, demand goes on as it was.
DailyWeather day_ahead(const TodaySoFar& today, const DailyWeather& expected) {
  DailyWeather day = as_at_station(today, expected);
  if (!day.tmin_c && !today.last_known && today.yesterday) day.et0_mm = today.yesterday->et0_mm;
  return day;
}

}  // namespace

model::StationDay today_of(const TodaySoFar& today, const DailyWeather& expected) {
  model::StationDays filling(today.site, today.last_known);
  return filling.next(today.date, joined(today, as_at_station(today, expected)));
}

std::vector<model::StationDay> days_ahead(const TodaySoFar& today,
                                          const std::vector<DailyWeather>& expected) {
  std::vector<model::StationDay> days;
  if (expected.empty()) return days;
  days.reserve(expected.size());
  days.push_back(today_of(today, expected.front()));
  model::StationDays filling(today.site,
                             model::known_temperatures(days.front().weather, today.last_known));
  for (std::size_t d = 1; d < expected.size(); ++d)
    days.push_back(filling.next(today.date + std::chrono::days{static_cast<int>(d)},
                                day_ahead(today, expected[d])));
  return days;
}

}  // namespace gley::daemon

#include "model/weather/station_day.hpp"

namespace gley::model {

StationDay StationDays::next(std::chrono::sys_days date, const DailyWeather& weather) {
  const CompletedWeather whole = complete_weather(weather, last_known_);
  last_known_ = known_temperatures(weather, last_known_);
  StationDay day;
  day.date = date;
  day.weather = whole.weather;
  day.et = reference_et(site_, date, whole.weather);
  day.flags = whole.flags;
  day.flags |= day.et.flags;
  return day;
}

}  // namespace gley::model

#include "daemon/engine/weather_sequence.hpp"

#include <algorithm>
#include <optional>

namespace gley::daemon {

namespace {

using model::DailyWeather;
using std::chrono::sys_days;

constexpr std::chrono::days one_day{1};

std::optional<sys_days> first_day(const std::vector<WeatherSource>& sources) {
  std::optional<sys_days> first;
  for (const WeatherSource& source : sources) {
    if (source.record->empty()) continue;
    const sys_days own = source.record->begin()->first;
    if (!first || own < *first) first = own;
  }
  return first;
}

void fill(std::optional<double>& value, const std::optional<double>& otherwise) {
  if (!value) value = otherwise;
}

/// What today is taken as before its end, from what was seen and the day before.
DailyWeather so_far(DailyWeather seen, const DailyWeather& yesterday) {
  fill(seen.wind_m_s, yesterday.wind_m_s);
  const bool knows_humidity = seen.dew_point_c || seen.rh_mean_pct;
  if (!knows_humidity) {
    seen.rh_min_pct = yesterday.rh_min_pct;
    seen.rh_max_pct = yesterday.rh_max_pct;
    seen.rh_mean_pct = yesterday.rh_mean_pct;
    seen.dew_point_c = yesterday.dew_point_c;
  }
  // Half a day's sun says little of the whole day's.
  seen.sun_h = yesterday.sun_h;
  seen.solar_mj_m2 = yesterday.solar_mj_m2;
  if (yesterday.tmin_c && yesterday.tmax_c) {
    seen.tmin_c = std::min(seen.tmin_c.value_or(*yesterday.tmin_c), *yesterday.tmin_c);
    seen.tmax_c = std::max(seen.tmax_c.value_or(*yesterday.tmax_c), *yesterday.tmax_c);
  }
  if (!seen.tmin_c) seen.et0_mm = yesterday.et0_mm;
  return seen;
}

}  // namespace

WeatherSequence::WeatherSequence(std::vector<WeatherSource> sources)
    : sources_(std::move(sources)) {}

void WeatherSequence::remake(sys_days from, sys_days last) {
  const std::optional<sys_days> first = first_day(sources_);
  if (!first) {
    days_.clear();
    return;
  }
  const bool moved_back = !days_.empty() && *first != days_.front().date;
  if (moved_back || from <= *first) days_.clear();
  while (!days_.empty() && days_.back().date >= from) days_.pop_back();

  model::StationDays filling(sources_.front().site, last_known_temperatures());
  const sys_days next = days_.empty() ? *first : days_.back().date + one_day;
  for (sys_days date = next; date <= last; date += one_day)
    days_.push_back(filling.next(date, weather_of(date)));
}

model::StationDay WeatherSequence::today(sys_days date) const {
  model::StationDays filling(sources_.front().site, last_known_temperatures());
  const DailyWeather seen = weather_of(date);
  if (days_.empty()) return filling.next(date, seen);
  return filling.next(date, so_far(seen, days_.back().weather));
}

std::optional<model::TemperatureRange> WeatherSequence::last_known_temperatures() const {
  for (auto day = days_.rbegin(); day != days_.rend(); ++day) {
    const auto known = model::known_temperatures(weather_of(day->date), {});
    if (known) return known;
  }
  return {};
}

const DayRecord* WeatherSequence::record_of(const WeatherSource& source, sys_days date) const {
  const auto found = source.record->find(date);
  return found == source.record->end() ? nullptr : &found->second;
}

DailyWeather WeatherSequence::weather_of(sys_days date) const {
  DailyWeather out;
  for (const WeatherSource& source : sources_) {
    const DayRecord* record = record_of(source, date);
    if (record == nullptr) continue;
    const bool has_air = out.tmin_c || out.et0_mm;
    if (!has_air && (record->weather.tmin_c || record->weather.et0_mm)) {
      const std::optional<double> rain_mm = out.rain_mm;
      const std::optional<double> irrigation_mm = out.irrigation_mm;
      out = record->weather;
      if (rain_mm) out.rain_mm = rain_mm;
      if (irrigation_mm) out.irrigation_mm = irrigation_mm;
    }
    fill(out.rain_mm, record->weather.rain_mm);
    fill(out.irrigation_mm, record->weather.irrigation_mm);
  }
  return out;
}

bool WeatherSequence::has_record_of(sys_days date) const {
  return std::any_of(sources_.begin(), sources_.end(), [&](const WeatherSource& source) {
    return record_of(source, date) != nullptr;
  });
}

std::vector<SeenDay> WeatherSequence::seen_on(sys_days date) const {
  std::vector<SeenDay> seen;
  for (const WeatherSource& source : sources_)
    if (const DayRecord* record = record_of(source, date))
      seen.push_back({source.station, *record});
  return seen;
}

const std::string& WeatherSequence::rain_station(sys_days date) const {
  for (const WeatherSource& source : sources_) {
    const DayRecord* record = record_of(source, date);
    if (record != nullptr && record->weather.rain_mm) return source.station;
  }
  return sources_.front().station;
}

}  // namespace gley::daemon

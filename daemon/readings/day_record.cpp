#include "daemon/readings/day_record.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <string>

namespace gley::daemon {

namespace {

using std::chrono::hours;
using Readings = std::vector<const Reading*>;

Readings of_quantity(const std::vector<Reading>& readings, Quantity quantity) {
  Readings out;
  for (const Reading& reading : readings)
    if (reading.quantity == quantity) out.push_back(&reading);
  return out;
}

/// The readings of the source that spoke most.
Readings of_best_source(const Readings& readings) {
  std::map<std::string, Readings> by_source;
  for (const Reading* reading : readings) by_source[reading->source].push_back(reading);
  const Readings* best = nullptr;
  for (const auto& [source, own] : by_source)
    if (best == nullptr || own.size() > best->size()) best = &own;
  return best == nullptr ? Readings{} : *best;
}

double counted_since(const Reading& last, const Reading& count) {
  return count.value >= last.value ? count.value - last.value : count.value;
}

double fallen_since(const Reading& last, const Reading& rate) {
  const auto gap = std::min<std::chrono::milliseconds>(rate.time - last.time, hours{1});
  return rate.value * std::chrono::duration<double, std::ratio<3600>>(gap).count();
}

/// The amounts from each reading to the next, beginning with the last one before the day; none if
/// there is only one reading in all.
std::optional<double> of_steps(const Readings& own, const std::vector<Reading>& before,
                               double (*amount_since)(const Reading&, const Reading&)) {
  const Reading& first = *own.front();
  const Reading* last = nullptr;
  for (const Reading& reading : before)
    if (reading.source == first.source && reading.quantity == first.quantity &&
        reading.form == first.form)
      last = &reading;
  std::optional<double> sum;
  for (const Reading* reading : own) {
    if (last != nullptr) sum = sum.value_or(0.0) + amount_since(*last, *reading);
    last = reading;
  }
  return sum;
}

double of_intervals(const Readings& amounts) {
  double sum = 0.0;
  for (const Reading* amount : amounts) sum += amount->value;
  return sum;
}

std::optional<double> amount(const DayReadings& readings, Quantity quantity) {
  const Readings own = of_best_source(of_quantity(readings.of_day, quantity));
  if (own.empty()) return {};
  switch (own.front()->form) {
    case ReadingForm::counter:
      return of_steps(own, readings.before, counted_since);
    case ReadingForm::rate:
      return of_steps(own, readings.before, fallen_since);
    default:
      return of_intervals(own);
  }
}

struct Spread {
  double least = 0.0;
  double most = 0.0;
  double mean = 0.0;
  std::size_t count = 0;
};

std::optional<Spread> spread(const DayReadings& readings, Quantity quantity) {
  const Readings own = of_quantity(readings.of_day, quantity);
  if (own.empty()) return {};
  Spread out{own.front()->value, own.front()->value, 0.0, own.size()};
  double sum = 0.0;
  for (const Reading* reading : own) {
    out.least = std::min(out.least, reading->value);
    out.most = std::max(out.most, reading->value);
    sum += reading->value;
  }
  out.mean = sum / static_cast<double>(own.size());
  return out;
}

void set_temperature(DayRecord& record, const DayReadings& readings) {
  const auto seen = spread(readings, Quantity::temperature);
  if (!seen || seen->count < 2) return;
  record.weather.tmin_c = seen->least;
  record.weather.tmax_c = seen->most;
  record.weather.tmean_c = seen->mean;
}

void set_humidity(DayRecord& record, const DayReadings& readings) {
  if (const auto seen = spread(readings, Quantity::dew_point))
    record.weather.dew_point_c = seen->mean;
  const auto seen = spread(readings, Quantity::humidity);
  if (!seen) return;
  record.weather.rh_mean_pct = seen->mean;
  // One value all day is a mean that someone sent, not a day whose air never changed.
  if (seen->least == seen->most) return;
  record.weather.rh_min_pct = seen->least;
  record.weather.rh_max_pct = seen->most;
}

void set_radiation(DayRecord& record, const DayReadings& readings) {
  const Readings own = of_quantity(readings.of_day, Quantity::radiation);
  if (own.empty()) return;
  if (own.front()->form == ReadingForm::interval) {
    record.weather.solar_mj_m2 = amount(readings, Quantity::radiation);
    return;
  }
  constexpr double seconds_a_day_per_mj = 86400.0 / 1e6;
  record.weather.solar_mj_m2 = spread(readings, Quantity::radiation)->mean * seconds_a_day_per_mj;
}

bool heard_near_both_ends(const std::vector<Reading>& readings, std::chrono::sys_days day,
                          const FarmCalendar& calendar) {
  constexpr hours near{6};
  const auto [first, last] =
      std::minmax_element(readings.begin(), readings.end(),
                          [](const Reading& a, const Reading& b) { return a.time < b.time; });
  return first->time <= calendar.begins(day) + near && last->time >= calendar.ends(day) - near;
}

}  // namespace

DayRecord day_record(const DayReadings& readings, std::chrono::sys_days day,
                     const FarmCalendar& calendar) {
  DayRecord record;
  if (readings.of_day.empty()) return record;
  record.weather.rain_mm = amount(readings, Quantity::rain);
  record.weather.irrigation_mm = amount(readings, Quantity::irrigation);
  record.weather.sun_h = amount(readings, Quantity::sunshine);
  set_temperature(record, readings);
  set_humidity(record, readings);
  set_radiation(record, readings);
  if (const auto seen = spread(readings, Quantity::wind)) record.weather.wind_m_s = seen->mean;
  record.complete = record.weather.rain_mm && record.weather.tmin_c &&
                    heard_near_both_ends(readings.of_day, day, calendar);
  return record;
}

}  // namespace gley::daemon

#include "daemon/readings/day_record.hpp"

#include <algorithm>
#include <map>
#include <optional>
#include <string>

#include "daemon/readings/hours.hpp"
#include "daemon/readings/quality_series.hpp"

namespace gley::daemon {

namespace {

using std::chrono::hours;
using Readings = std::vector<const Reading*>;

struct TimeSpanOfDay {
  Instant begins{};
  Instant ends{};
};

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

double fallen_since(const Reading& last, const Reading& rate) {
  const auto gap = std::min<std::chrono::milliseconds>(rate.time - last.time, hours{1});
  return rate.value * Hours(gap).count();
}

/// The last one of the same source before the day.
const Reading* last_before(const Reading& first, const std::vector<Reading>& before) {
  const Reading* last = nullptr;
  for (const Reading& reading : before)
    if (reading.source == first.source && reading.quantity == first.quantity &&
        reading.form == first.form)
      last = &reading;
  return last;
}

std::optional<double> of_rates(const Readings& own, const Reading* last) {
  std::optional<double> sum;
  for (const Reading* reading : own) {
    if (last != nullptr) sum = sum.value_or(0.0) + fallen_since(*last, *reading);
    last = reading;
  }
  return sum;
}

double of_intervals(const Readings& amounts) {
  double sum = 0.0;
  for (const Reading* amount : amounts) sum += amount->value;
  return sum;
}

std::optional<double> of_counts(const Readings& own, const DayReadings& readings,
                                std::vector<Doubt>& doubts) {
  const Reading& first = *own.front();
  const bool accepted = readings.accepted.count(first.quantity) > 0;
  const auto roll = readings.roll_overs.find({first.source, first.quantity});
  const Counted counted =
      count_up(own, last_before(first, readings.before),
               {.everything_counts = accepted,
                .rolls_over_at = roll == readings.roll_overs.end() ? std::nullopt
                                                                   : std::optional(roll->second)});
  if (counted.strays > 0)
    doubts.push_back({.quantity = first.quantity,
                      .kind = DoubtKind::spike,
                      .source = first.source,
                      .readings = counted.strays});
  if (counted.jumps > 0)
    doubts.push_back({.quantity = first.quantity,
                      .kind = DoubtKind::counter_jump,
                      .source = first.source,
                      .readings = counted.jumps});
  return counted.amount;
}

std::optional<double> amount(const DayReadings& readings, Quantity quantity,
                             std::vector<Doubt>& doubts) {
  const Readings own = of_best_source(of_quantity(readings.of_day, quantity));
  if (own.empty()) return {};
  switch (own.front()->form) {
    case ReadingForm::counter:
      return of_counts(own, readings, doubts);
    case ReadingForm::rate:
      return of_rates(own, last_before(*own.front(), readings.before));
    default:
      return of_intervals(own);
  }
}

/// Whether a gauge that speaks by the hour or faster fell silent for a good part of the day. A
/// counter catches up, and one amount a day is whole.
bool heard_in_part(const Readings& own, const TimeSpanOfDay& day) {
  constexpr std::size_t several = 4;
  constexpr hours silence{6};
  if (own.size() < several || own.front()->form == ReadingForm::counter) return false;
  std::vector<std::chrono::milliseconds> gaps;
  for (std::size_t i = 1; i < own.size(); ++i) gaps.push_back(own[i]->time - own[i - 1]->time);
  const auto longest = std::max({*std::max_element(gaps.begin(), gaps.end()),
                                 own.front()->time - day.begins, day.ends - own.back()->time});
  std::nth_element(gaps.begin(), gaps.begin() + static_cast<long>(gaps.size() / 2), gaps.end());
  return gaps[gaps.size() / 2] <= hours{1} && longest > silence;
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

void set_radiation(DayRecord& record, const DayReadings& readings, std::vector<Doubt>& doubts) {
  const Readings own = of_quantity(readings.of_day, Quantity::radiation);
  if (own.empty()) return;
  if (own.front()->form == ReadingForm::interval) {
    record.weather.solar_mj_m2 = amount(readings, Quantity::radiation, doubts);
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

DayRecord day_record(DayReadings readings, std::chrono::sys_days day,
                     const FarmCalendar& calendar) {
  DayRecord record;
  if (readings.of_day.empty()) return record;
  const bool at_both_ends = heard_near_both_ends(readings.of_day, day, calendar);
  std::vector<Doubt> doubts = take_out_doubtful(readings.of_day, readings.accepted);
  record.weather.rain_mm = amount(readings, Quantity::rain, doubts);
  record.weather.irrigation_mm = amount(readings, Quantity::irrigation, doubts);
  record.weather.sun_h = amount(readings, Quantity::sunshine, doubts);
  record.flags.set(model::DayFlag::rain_partial,
                   heard_in_part(of_best_source(of_quantity(readings.of_day, Quantity::rain)),
                                 {calendar.begins(day), calendar.ends(day)}));
  set_temperature(record, readings);
  set_humidity(record, readings);
  set_radiation(record, readings, doubts);
  if (const auto seen = spread(readings, Quantity::wind)) record.weather.wind_m_s = seen->mean;
  record.complete = record.weather.rain_mm && record.weather.tmin_c && at_both_ends;
  for (const Doubt& doubt : doubts) flag_doubt(record.flags, doubt);
  record.doubts = DoubtSet(doubts);
  return record;
}

std::vector<Doubt> doubts_of(DayReadings readings) {
  std::vector<Doubt> doubts = take_out_doubtful(readings.of_day, readings.accepted);
  for (const Quantity quantity :
       {Quantity::rain, Quantity::irrigation, Quantity::sunshine, Quantity::radiation})
    (void)amount(readings, quantity, doubts);
  return doubts;
}

std::vector<SourceCount> sources_of(DayReadings readings, Quantity quantity) {
  take_out_doubtful(readings.of_day, readings.accepted);
  const Readings own = of_quantity(readings.of_day, quantity);
  const Readings best = of_best_source(own);
  std::map<std::string, SourceCount> by_name;
  for (const Reading* reading : own) {
    SourceCount& count = by_name[reading->source];
    count.source = reading->source;
    ++count.readings;
    count.used = reading->form == ReadingForm::instant || reading->source == best.front()->source;
  }
  std::vector<SourceCount> out;
  out.reserve(by_name.size());
  for (auto& [name, count] : by_name) out.push_back(std::move(count));
  return out;
}

}  // namespace gley::daemon

#include "daemon/engine/fields/last_hours.hpp"

#include <algorithm>

#include "daemon/readings/hours.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::minutes between_spells{1};
constexpr double shows_mm = 0.1;

/// Readings further ahead of the clock than this are kept aside; some above ten minutes.
constexpr std::chrono::minutes furthest_ahead{11};

/// The store's spans are open at their end.
constexpr std::chrono::milliseconds just_behind{1};

}  // namespace

LastHours::LastHours(const FarmConfig& farm, const DayKeeper& keeper)
    : keeper_(keeper), calendar_(farm.time_zone, farm.day_starts) {
  for (const StationConfig& station : farm.stations) stations_[station.id];
}

void LastHours::look(Instant now) {
  const bool spells_are_old =
      !spells_of_ || now < *spells_of_ || now - *spells_of_ >= between_spells;
  if (spells_are_old) spells_of_ = now;
  for (auto& [id, own] : stations_) {
    const bool holds = own.rain_24h && own.rain_24h->rows == keeper_.rows(id) &&
                       own.rain_24h->until <= now && now < own.rain_24h->holds_until;
    if (!holds) own.rain_24h = rain_of(id, std::chrono::hours{24}, now);
    if (!spells_are_old) continue;
    own.dry_h = hours_dry(id, now);
    own.frozen_h = hours_below_zero(id, now - std::chrono::hours{24}, now);
  }
}

LastHours::Rain LastHours::rain_of(const std::string& station, std::chrono::milliseconds span,
                                   Instant until) const {
  Rain rain{.mm = {}, .until = until, .holds_until = Instant::max(), .rows = keeper_.rows(station)};
  const std::optional<Instant> first = keeper_.first_heard(station);
  if (!first) return rain;
  const Instant from = until - span;
  if (*first > from) {
    rain.holds_until = *first + span;
    return rain;
  }
  const std::chrono::sys_days day = calendar_.day_of(until);
  DayReadings readings = keeper_.readings_in(station, {from, until + furthest_ahead}, day);
  // An amount that ends where the span begins tells of the time before.
  std::erase_if(readings.of_day, [&](const Reading& reading) { return reading.time <= from; });
  const auto later = std::find_if(readings.of_day.begin(), readings.of_day.end(),
                                  [&](const Reading& reading) { return reading.time > until; });
  if (later != readings.of_day.end()) rain.holds_until = later->time;
  readings.of_day.erase(later, readings.of_day.end());
  if (!readings.of_day.empty())
    rain.holds_until = std::min(rain.holds_until, readings.of_day.front().time + span);
  rain.mm = day_record(std::move(readings), day, calendar_).weather.rain_mm;
  return rain;
}

std::optional<double> LastHours::hours_dry(const std::string& station, Instant now) const {
  constexpr std::chrono::hours shortest{1};
  const std::optional<Instant> first = keeper_.first_heard(station);
  if (!first) return {};
  // Heard for less, a station may tell that it rained, and not yet that it did not.
  if (*first < now && now - *first < shortest &&
      rain_of(station, now - *first, now).mm.value_or(0.0) >= shows_mm)
    return 0.0;
  std::optional<double> dry;
  for (const int hours : {1, 2, 3, 6, 12, 24, 48, 72}) {
    const std::optional<double> rain_mm = rain_of(station, std::chrono::hours{hours}, now).mm;
    if (!rain_mm) return dry;
    if (*rain_mm >= shows_mm) return dry.value_or(0.0);
    dry = hours;
  }
  return dry;
}

std::optional<double> LastHours::hours_below_zero(const std::string& station, Instant from,
                                                  Instant until) const {
  constexpr std::chrono::hours stands_at_most{2};
  constexpr std::chrono::hours untold_at_most{4};
  std::chrono::milliseconds told{0};
  std::chrono::milliseconds below{0};
  std::optional<Reading> last;
  const auto stand = [&](Instant end) {
    if (!last) return;
    const auto length = std::min<std::chrono::milliseconds>(end - last->time, stands_at_most);
    told += length;
    if (last->value < 0.0) below += length;
  };
  for (const Reading& reading : keeper_.readings_between(station, {from, until + just_behind})) {
    if (reading.quantity != Quantity::temperature) continue;
    stand(reading.time);
    last = reading;
  }
  stand(until);
  if (until - from - told > untold_at_most) return {};
  return Hours(below).count();
}

std::optional<double> LastHours::rain_24h_mm(const std::string& station) const {
  const auto own = stations_.find(station);
  if (own == stations_.end() || !own->second.rain_24h) return {};
  return own->second.rain_24h->mm;
}

std::optional<double> LastHours::dry_h(const std::string& station) const {
  const auto own = stations_.find(station);
  return own == stations_.end() ? std::nullopt : own->second.dry_h;
}

std::optional<double> LastHours::frozen_h(const std::string& station) const {
  const auto own = stations_.find(station);
  return own == stations_.end() ? std::nullopt : own->second.frozen_h;
}

}  // namespace gley::daemon

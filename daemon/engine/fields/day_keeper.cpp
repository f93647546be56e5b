#include "daemon/engine/fields/day_keeper.hpp"

#include <algorithm>
#include <array>
#include <bit>

#include "daemon/engine/weather/checksum.hpp"
#include "daemon/engine/weather/roll_overs.hpp"
#include "daemon/farm/with_id.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

constexpr int rows_at_once = 10000;

/// So many of the last rows are looked at for clocks that are off, at a start.
constexpr int rows_that_tell_of_clocks = 2000;

/// A count exactly at a day's start closes the day before: days meet just behind it.
constexpr std::chrono::milliseconds just_behind{1};

bool is_amount(const Reading& reading) {
  return reading.form != ReadingForm::instant;
}

sys_days day_of(const Reading& reading, const FarmCalendar& calendar) {
  return is_amount(reading) ? calendar.day_of_amount_until(reading.time)
                            : calendar.day_of(reading.time);
}

void add(Checksum& sum, const std::optional<double>& value) {
  sum.add(value.has_value() ? 1U : 0U);
  if (value) sum.add(std::bit_cast<std::uint64_t>(*value));
}

std::uint64_t checksum_of(const std::map<std::string, DaysOfWeather>& loaded,
                          const std::vector<AcceptedDays>& accepted) {
  using model::DailyWeather;
  constexpr std::array numbers{
      &DailyWeather::rain_mm,      &DailyWeather::tmin_c,      &DailyWeather::tmax_c,
      &DailyWeather::tmean_c,      &DailyWeather::rh_min_pct,  &DailyWeather::rh_max_pct,
      &DailyWeather::rh_mean_pct,  &DailyWeather::dew_point_c, &DailyWeather::wind_m_s,
      &DailyWeather::sun_h,        &DailyWeather::solar_mj_m2, &DailyWeather::et0_mm,
      &DailyWeather::irrigation_mm};
  Checksum sum;
  for (const auto& [station, days_of_weather] : loaded) {
    sum.add(station);
    for (const auto& [date, day] : days_of_weather) {
      sum.add(static_cast<std::uint64_t>(date.time_since_epoch().count()));
      for (const auto number : numbers) add(sum, day.*number);
    }
  }
  for (const AcceptedDays& own : accepted) {
    sum.add(own.station);
    sum.add(static_cast<std::uint64_t>(own.quantity));
    sum.add(static_cast<std::uint64_t>(own.from.time_since_epoch().count()));
    sum.add(static_cast<std::uint64_t>(own.to.time_since_epoch().count()));
  }
  return sum.value();
}

}  // namespace

DayKeeper::DayKeeper(const FarmConfig& farm, Database& database, FieldBook& book,
                     const std::optional<Checkpoint>& checkpoint)
    : farm_(farm),
      calendar_(farm.time_zone, farm.day_starts),
      book_(book),
      readings_(database),
      accepted_store_(database) {
  LoadedDays loaded(database);
  for (const StationConfig& station : farm.stations) loaded_[station.id] = loaded.all(station.id);
  read_accepted();
  given_checksum_ = checksum_of(loaded_, accepted_);
  time_unknown_ = readings_.last_time_unknown();
  for (const StoredReading& row :
       readings_.after(readings_.last_id() - rows_that_tell_of_clocks, rows_that_tell_of_clocks))
    clocks_.note(row);
  went_on_ = checkpoint && checkpoint->given == given_checksum_;
  if (went_on_) {
    seen_id_ = checkpoint->seen_id;
    book_.restore(checkpoint->book);
    for (const StationConfig& station : farm_.stations) note_extent(station.id);
    catch_up();
  } else {
    take_whole_store();
  }
}

std::optional<Checkpoint> DayKeeper::checkpoint() const {
  std::optional<BookCheckpoint> book = book_.checkpoint();
  if (!book) return {};
  return Checkpoint{.seen_id = seen_id_, .given = given_checksum_, .book = std::move(*book)};
}

void DayKeeper::take_whole_store() {
  // Rows that arrive while the days are gathered are taken again by catch_up: putting a day twice
  // does no harm, missing one would.
  seen_id_ = readings_.last_id();
  for (const StationConfig& station : farm_.stations) take_station(station.id);
}

void DayKeeper::note_extent(const std::string& station) {
  const auto extent = readings_.extent(station);
  if (!extent) return;
  first_heard_[station] = extent->first;
  last_heard_[station] = extent->last;
}

void DayKeeper::take_station(const std::string& station) {
  for (const auto& [date, weather] : loaded_[station])
    book_.put(station, date, {.weather = weather, .flags = {}, .complete = true, .loaded = true});
  note_extent(station);
  put_days(station, sys_days::min(), sys_days::max());
}

void DayKeeper::read_accepted() {
  accepted_id_ = accepted_store_.last_id();
  accepted_ = accepted_store_.all();
  book_.accept(accepted_);
}

/// Gathers the days anew that a person has accepted since.
void DayKeeper::take_accepted() {
  if (accepted_store_.last_id() == accepted_id_) return;
  const std::size_t known = accepted_.size();
  read_accepted();
  given_checksum_ = checksum_of(loaded_, accepted_);
  for (std::size_t i = known; i < accepted_.size(); ++i) {
    ++rows_[accepted_[i].station];  // its recent rain may be another
    put_days(accepted_[i].station, accepted_[i].from, accepted_[i].to);
  }
}

AcceptedQuantities DayKeeper::accepted_on(const std::string& station, sys_days day) const {
  AcceptedQuantities quantities;
  for (const AcceptedDays& own : accepted_)
    if (own.station == station && own.from <= day && day <= own.to) quantities.insert(own.quantity);
  return quantities;
}

void DayKeeper::catch_up() {
  Touched touched;
  Touched measured_from;
  take_accepted();
  for (;;) {
    const std::vector<StoredReading> rows = readings_.after(seen_id_, rows_at_once);
    for (const StoredReading& row : rows) note(row, touched, measured_from);
    if (rows.size() < rows_at_once) break;
  }
  add_followers(measured_from, touched);
  for (const auto& [station, day] : touched) put_day(station, day);
}

void DayKeeper::note(const StoredReading& row, Touched& touched, Touched& measured_from) {
  seen_id_ = std::max(seen_id_, row.id);
  const Reading& reading = row.reading;
  clocks_.note(row);
  if (row.status == ReadingStatus::time_unknown) time_unknown_[reading.station] = row.received;
  if (row.status != ReadingStatus::used) return;
  ++rows_[reading.station];
  Instant& heard = last_heard_[reading.station];
  heard = std::max(heard, reading.time);
  Instant& first = first_heard_.emplace(reading.station, reading.time).first->second;
  first = std::min(first, reading.time);
  const sys_days day = day_of(reading, calendar_);
  touched.insert({reading.station, day});
  const bool is_step = reading.form == ReadingForm::counter || reading.form == ReadingForm::rate;
  if (is_step) measured_from.insert({reading.station, day});
}

/// A day's first count is measured from the last one before, however long ago.
void DayKeeper::add_followers(const Touched& measured_from, Touched& touched) {
  for (const auto& [station, day] : measured_from)
    for (const Reading& next : readings_.first_from(station, calendar_.ends(day) + just_behind))
      touched.insert({station, day_of(next, calendar_)});
}

void DayKeeper::put_day(const std::string& station, sys_days day) {
  const DayRecord live = day_record(readings_of(station, day), day, calendar_);
  const auto own = loaded_.find(station);
  if (!live.complete && own != loaded_.end() && own->second.contains(day)) return;
  book_.put(station, day, live);
}

void DayKeeper::put_days(const std::string& station, sys_days from, sys_days to) {
  const std::optional<Instant> first = first_heard(station);
  if (!first) return;
  const sys_days last = std::min(to, calendar_.day_of(last_heard_.at(station)));
  for (sys_days day = std::max(from, calendar_.day_of_amount_until(*first)); day <= last;
       day += days{1})
    put_day(station, day);
}

std::optional<Instant> DayKeeper::first_heard(const std::string& station) const {
  const auto first = first_heard_.find(station);
  if (first == first_heard_.end()) return {};
  return first->second;
}

std::uint64_t DayKeeper::rows(const std::string& station) const {
  const auto own = rows_.find(station);
  return own == rows_.end() ? 0 : own->second;
}

std::vector<Reading> DayKeeper::readings_between(const std::string& station, TimeSpan span) const {
  return readings_.between(station, span);
}

DayReadings DayKeeper::readings_in(const std::string& station, TimeSpan span, sys_days day) const {
  DayReadings readings;
  readings.of_day = readings_.between(station, span);
  readings.before = readings_.last_before(station, span.from + just_behind);
  readings.accepted = accepted_on(station, day);
  if (const StationConfig* own = with_id(farm_.stations, station))
    readings.roll_overs = roll_overs_of(*own, readings);
  return readings;
}

DayReadings DayKeeper::readings_of(const std::string& station, sys_days day) const {
  DayReadings readings =
      readings_in(station, {calendar_.begins(day), calendar_.ends(day) + just_behind}, day);
  std::erase_if(readings.of_day,
                [&](const Reading& reading) { return day_of(reading, calendar_) != day; });
  return readings;
}

std::vector<QuantitySources> DayKeeper::sources(const std::vector<std::string>& stations,
                                                sys_days day) const {
  std::vector<QuantitySources> out;
  for (const std::string& station : stations) {
    const DayReadings readings = readings_of(station, day);
    std::set<Quantity> quantities;
    for (const Reading& reading : readings.of_day) quantities.insert(reading.quantity);
    for (const Quantity quantity : quantities)
      out.push_back({station, quantity, sources_of(readings, quantity)});
  }
  return out;
}

std::vector<StationDoubt> DayKeeper::doubts(const std::vector<std::string>& stations,
                                            sys_days day) const {
  std::vector<StationDoubt> out;
  for (const std::string& station : stations)
    for (Doubt& doubt : doubts_of(readings_of(station, day)))
      out.push_back({station, std::move(doubt)});
  return out;
}

}  // namespace gley::daemon

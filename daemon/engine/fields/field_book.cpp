#include "daemon/engine/fields/field_book.hpp"

#include <algorithm>

#include "daemon/engine/fields/days_csv.hpp"
#include "daemon/farm/field_setup.hpp"
#include "daemon/farm/with_id.hpp"

namespace gley::daemon {

using std::chrono::sys_days;

namespace {

std::map<std::string, StationRecord> empty_records(const FarmConfig& farm) {
  std::map<std::string, StationRecord> records;
  for (const StationConfig& station : farm.stations) records[station.id];
  return records;
}

std::vector<JudgedStation> judged_stations(const FarmConfig& farm,
                                           const std::map<std::string, StationRecord>& records) {
  std::vector<JudgedStation> stations;
  for (const StationConfig& station : farm.stations) {
    const model::Site site = site_of(farm, station);
    stations.push_back({.id = station.id,
                        .place = {.longitude = station.longitude.value_or(farm.longitude),
                                  .latitude = site.latitude_deg},
                        .elevation_m = site.elevation_m,
                        .record = &records.at(station.id)});
  }
  return stations;
}

}  // namespace

FieldBook::FieldBook(const FarmConfig& farm)
    : farm_(farm), records_(empty_records(farm)), judge_(judged_stations(farm, records_)) {
  for (const FieldConfig& field : farm.fields)
    entries_.push_back({&field, sequence_for(field.stations), FieldHistory(field_of(field))});
}

std::size_t FieldBook::sequence_for(const std::vector<std::string>& stations) {
  for (std::size_t i = 0; i < sequences_.size(); ++i)
    if (sequences_[i].stations == stations) return i;
  std::vector<WeatherSource> sources;
  for (const std::string& id : stations)
    if (const StationConfig* station = with_id(farm_.stations, id))
      sources.push_back({id, site_of(farm_, *station), &records_.at(id), &judge_.doubts(id)});
  sequences_.push_back({WeatherSequence(std::move(sources)), {}, stations, 1});
  return sequences_.size() - 1;
}

void FieldBook::put(const std::string& station, sys_days date, const DayRecord& record) {
  const auto own = records_.find(station);
  if (own == records_.end()) return;  // a station that the configuration no longer names
  const auto known = own->second.find(date);
  if (known != own->second.end() && known->second == record) return;
  if (record == DayRecord{})
    own->second.erase(date);
  else
    own->second[date] = record;
  judge_.changed(date);
  mark_changed(station, date);
}

void FieldBook::mark_changed(const std::string& station, sys_days date) {
  for (Sequence& sequence : sequences_) {
    const auto& ids = sequence.stations;
    if (std::find(ids.begin(), ids.end(), station) == ids.end()) continue;
    sequence.changed_from = std::min(sequence.changed_from.value_or(date), date);
    ++sequence.version;
  }
}

void FieldBook::look_at_gap(std::size_t sequence) {
  const std::vector<model::StationDay>& days = sequences_[sequence].weather.days();
  const RainGap gap = daemon::rain_gap(days);
  sequences_[sequence].gap = gap;
  const auto other = [&gap](const model::StationDay& day) { return as_if_it_rained(gap, day); };
  for (Entry& entry : entries_) {
    if (entry.sequence != sequence) continue;
    entry.if_wetter.reset();
    if (gap.days > 0) entry.if_wetter = entry.history.last_evening_if(days, gap.from, other);
  }
}

void FieldBook::close(sys_days last) {
  for (const auto& [station, from] : judge_.judge()) mark_changed(station, from);
  for (std::size_t i = 0; i < sequences_.size(); ++i) {
    Sequence& sequence = sequences_[i];
    const sys_days next = closed_ ? std::min(*closed_, last) + std::chrono::days{1} : sys_days{};
    const sys_days from = std::min(sequence.changed_from.value_or(next), next);
    const bool clock_went_back = closed_ && *closed_ > last;
    if (from > last && !clock_went_back) continue;
    sequence.weather.remake(from, last);
    for (Entry& entry : entries_)
      if (entry.sequence == i) entry.history.remake(sequence.weather.days(), from);
    look_at_gap(i);
    sequence.changed_from.reset();
    ++sequence.version;
  }
  closed_ = last;
}

std::optional<BookCheckpoint> FieldBook::checkpoint() const {
  const bool waits = std::any_of(sequences_.begin(), sequences_.end(), [&](const Sequence& one) {
    return one.changed_from && closed_ && *one.changed_from <= *closed_;
  });
  if (!closed_ || waits) return {};
  BookCheckpoint out;
  out.closed = *closed_;
  for (const StationConfig& station : farm_.stations) {
    std::vector<DatedRecord>& own = out.records.emplace_back();
    for (const auto& [date, record] : records_.at(station.id)) own.push_back({date, record});
  }
  for (const Entry& entry : entries_) out.marks.push_back(entry.history.marks());
  return out;
}

void FieldBook::restore(const BookCheckpoint& checkpoint) {
  for (std::size_t s = 0; s < farm_.stations.size(); ++s) {
    StationRecord& own = records_.at(farm_.stations[s].id);
    for (const DatedRecord& day : checkpoint.records[s])
      own.emplace_hint(own.end(), day.date, day.record);
    if (!own.empty()) judge_.changed(own.begin()->first);
  }
  (void)judge_.judge();  // the evenings kept have seen these findings
  for (Sequence& sequence : sequences_) sequence.weather.remake({}, checkpoint.closed);
  for (std::size_t i = 0; i < entries_.size(); ++i)
    entries_[i].history.restore(weather(i).days(), checkpoint.marks[i]);
  for (std::size_t i = 0; i < sequences_.size(); ++i) look_at_gap(i);
  closed_ = checkpoint.closed;
}

const FieldConfig& FieldBook::config(std::size_t field) const {
  return *entries_[field].config;
}

const FieldHistory& FieldBook::history(std::size_t field) const {
  return entries_[field].history;
}

const WeatherSequence& FieldBook::weather(std::size_t field) const {
  return sequences_[entries_[field].sequence].weather;
}

void FieldBook::expect(const std::optional<ExpectedDay>& day) {
  if (day == expected_) return;
  expected_ = day;
  for (Sequence& sequence : sequences_) {
    sequence.weather.expect(day);
    ++sequence.version;
  }
}

std::optional<model::FieldDay> FieldBook::so_far(std::size_t field, sys_days date) const {
  const WeatherSequence& own = weather(field);
  if (own.days().empty() && !own.has_record_of(date)) return {};
  return entries_[field].history.tentative(own.today(date));
}

const model::FieldState* FieldBook::evening_if_wetter(std::size_t field) const {
  const std::optional<model::FieldState>& state = entries_[field].if_wetter;
  return state ? &*state : nullptr;
}

std::optional<model::FieldDay> FieldBook::so_far_if_wetter(std::size_t field, sys_days date) const {
  const Entry& entry = entries_[field];
  if (!entry.if_wetter) return {};
  model::FieldState state = *entry.if_wetter;
  return model::step_field(entry.history.field(), weather(field).today(date), state);
}

std::string FieldBook::days_csv(std::size_t field, const DayRange& range) const {
  const Entry& entry = entries_[field];
  const int layers = entry.history.field().parameters.soil.layers;
  std::string text = days_csv_header(layers);
  entry.history.each(weather(field).days(), range, [&](const model::FieldDay& day) {
    text += days_csv_row(entry.config->id, entry.history.field(), day, layers);
  });
  return text;
}

std::optional<std::size_t> FieldBook::index_of(const std::string& field_id) const {
  for (std::size_t i = 0; i < entries_.size(); ++i)
    if (entries_[i].config->id == field_id) return i;
  return {};
}

}  // namespace gley::daemon

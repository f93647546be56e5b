#include "daemon/engine/weather/weather_sequence.hpp"

#include <algorithm>

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

}  // namespace

WeatherSequence::WeatherSequence(std::vector<WeatherSource> sources)
    : sources_(std::move(sources)) {}

model::StationDay WeatherSequence::made_whole(model::StationDays& filling, sys_days date) const {
  const WeatherChoice chosen = choice(date, DayPart::whole);
  model::StationDay day = filling.next(date, chosen.weather);
  day.flags |= chosen.flags;
  return day;
}

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
    days_.push_back(made_whole(filling, date));
}

TodaySoFar WeatherSequence::so_far(sys_days date) const {
  TodaySoFar today{.date = date,
                   .site = sources_.front().site,
                   .last_known = last_known_temperatures(),
                   .seen = choice(date, DayPart::so_far).weather,
                   .yesterday = {}};
  if (!days_.empty()) today.yesterday = days_.back().weather;
  return today;
}

model::StationDay WeatherSequence::today(sys_days date) const {
  const bool forecast = expected_ && expected_->date == date;
  model::StationDay day = today_of(so_far(date), forecast ? expected_->weather : DailyWeather{});
  day.flags |= choice(date, DayPart::so_far).flags;
  return day;
}

std::optional<model::TemperatureRange> WeatherSequence::last_known_temperatures() const {
  for (auto day = days_.rbegin(); day != days_.rend(); ++day) {
    const auto known = model::known_temperatures(choice(day->date, DayPart::whole).weather, {});
    if (known) return known;
  }
  return {};
}

const DayRecord* WeatherSequence::record_of(const WeatherSource& source, sys_days date) const {
  const auto found = source.record->find(date);
  return found == source.record->end() ? nullptr : &found->second;
}

bool WeatherSequence::has_record_of(sys_days date) const {
  return std::any_of(sources_.begin(), sources_.end(), [&](const WeatherSource& source) {
    return record_of(source, date) != nullptr;
  });
}

std::vector<SeenDay> WeatherSequence::seen_on(sys_days date) const {
  std::vector<SeenDay> seen;
  for (const WeatherSource& source : sources_) {
    const DayRecord* record = record_of(source, date);
    if (record == nullptr) continue;
    seen.push_back({source.station, *record, {}});
    if (source.doubts == nullptr) continue;
    const auto doubts = source.doubts->find(date);
    if (doubts != source.doubts->end()) seen.back().doubts = doubts->second;
  }
  return seen;
}

const std::string& WeatherSequence::rain_station(sys_days date) const {
  return sources_[choice(date, DayPart::so_far).rain.value_or(0)].station;
}

}  // namespace gley::daemon

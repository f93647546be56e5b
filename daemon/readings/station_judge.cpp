#include "daemon/readings/station_judge.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/farm/land_measure.hpp"
#include "daemon/readings/quality_limits.hpp"
#include "model/weather/missing.hpp"

namespace gley::daemon {

namespace {

using std::chrono::sys_days;

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t half = values.size() / 2;
  return values.size() % 2 == 1 ? values[half] : (values[half - 1] + values[half]) / 2.0;
}

const DayRecord* record_on(const JudgedStation& station, sys_days date) {
  const auto found = station.record->find(date);
  return found == station.record->end() ? nullptr : &found->second;
}

std::optional<double> mean_temperature_c(const JudgedStation& station, sys_days date) {
  const DayRecord* record = record_on(station, date);
  const auto extremes = record == nullptr ? std::nullopt : model::extremes_of(record->weather);
  return extremes ? std::optional(model::mean_temperature_c(*extremes)) : std::nullopt;
}

/// A gauge that counted next to nothing; one that was not heard says neither yes nor no.
bool may_be_blocked(const DayRecord& record) {
  return record.weather.rain_mm.value_or(0.0) <= limits::dry_gauge_mm;
}

bool is_saturated(const DayRecord& record) {
  return record.weather.rh_mean_pct.value_or(0.0) >= limits::saturated_pct;
}

bool is_far(double value, const Norm& norm) {
  const double off = std::fabs(value - norm.mean);
  return off > limits::season_least_c && off > limits::season_deviations * norm.deviation;
}

/// The first day of the run, of days for which something holds, that reaches `from` or ends on the
/// day on record before it.
template <class Holds>
sys_days start_of_run(const StationRecord& record, sys_days from, Holds holds) {
  sys_days start = from;
  for (auto day = record.lower_bound(from); day != record.begin();) {
    --day;
    if (!holds(day->second)) break;
    start = day->first;
  }
  return start;
}

/// From which day on two differ; empty if they do not.
template <class ByDay>
std::optional<sys_days> first_difference(const ByDay& a, const ByDay& b) {
  const auto [left, right] = std::mismatch(a.begin(), a.end(), b.begin(), b.end());
  if (left == a.end() && right == b.end()) return {};
  if (left == a.end()) return right->first;
  if (right == b.end()) return left->first;
  return std::min(left->first, right->first);
}

/// Rain that fell, or was to, while a gauge counted none.
class RainMissed {
 public:
  explicit RainMissed(const limits::WetSpell& enough) : enough_(enough) {}

  /// Whether the day was a wet one.
  bool add(double rain_mm) {
    if (rain_mm < enough_.day_mm) return false;
    ++days_;
    sum_mm_ += rain_mm;
    return true;
  }
  [[nodiscard]] bool speaks_against_the_gauge() const {
    return days_ >= enough_.days && sum_mm_ >= enough_.sum_mm;
  }

 private:
  limits::WetSpell enough_;
  int days_ = 0;
  double sum_mm_ = 0.0;
};

}  // namespace

StationJudge::StationJudge(std::vector<JudgedStation> stations) {
  for (JudgedStation& station : stations) {
    const StationRecord& record = *station.record;
    seats_.push_back({std::move(station), {}, SeasonNorms(record), {}, {}});
  }
  find_neighbours();
}

void StationJudge::find_neighbours() {
  for (std::size_t i = 0; i < seats_.size(); ++i)
    for (std::size_t j = 0; j < seats_.size(); ++j)
      if (i != j &&
          distance_km(seats_[i].station.place, seats_[j].station.place) <= limits::neighbour_km)
        seats_[i].neighbours.push_back(j);
}

void StationJudge::changed(sys_days date) {
  changed_from_ = std::min(changed_from_.value_or(date), date);
}

void StationJudge::accept(std::vector<AcceptedDays> accepted) {
  if (accepted == accepted_) return;
  for (const auto* list : {&accepted, &accepted_})
    for (const AcceptedDays& days : *list) changed(days.from);
  accepted_ = std::move(accepted);
}

void StationJudge::foresee(RainForeseen rain) {
  if (const auto from = first_difference(rain, foreseen_)) changed(*from);
  foreseen_ = std::move(rain);
}

bool StationJudge::is_accepted(const std::string& station, Quantity quantity, sys_days date) const {
  return std::any_of(accepted_.begin(), accepted_.end(), [&](const AcceptedDays& days) {
    return days.station == station && days.quantity == quantity && days.from <= date &&
           date <= days.to;
  });
}

std::map<std::string, sys_days> StationJudge::judge() {
  std::map<std::string, sys_days> changed;
  if (!changed_from_) return changed;
  for (Seat& seat : seats_) judge_season(seat, *changed_from_);
  for (Seat& seat : seats_)
    if (const auto from = rejudge(seat, *changed_from_)) changed[seat.station.id] = *from;
  changed_from_.reset();
  return changed;
}

const DoubtsByDay& StationJudge::doubts(const std::string& station) const {
  static const DoubtsByDay none;
  for (const Seat& seat : seats_)
    if (seat.station.id == station) return seat.doubts;
  return none;
}

void StationJudge::judge_season(Seat& seat, sys_days from) {
  seat.norms.forget_from(from);
  seat.out_of_season.erase(seat.out_of_season.lower_bound(from), seat.out_of_season.end());
  const StationRecord& record = *seat.station.record;
  for (auto day = record.lower_bound(from); day != record.end(); ++day) {
    const model::DailyWeather& weather = day->second.weather;
    if (!weather.tmin_c || !weather.tmax_c) continue;
    const auto norms = seat.norms.before_year_of(day->first, seat.out_of_season);
    if (norms && (is_far(*weather.tmin_c, norms->tmin_c) || is_far(*weather.tmax_c, norms->tmax_c)))
      add(seat, day->first, {.quantity = Quantity::temperature, .kind = DoubtKind::out_of_season},
          seat.out_of_season);
  }
}

std::optional<sys_days> StationJudge::rejudge(Seat& seat, sys_days from) {
  const StationRecord& record = *seat.station.record;
  sys_days start = start_of_run(record, from, is_saturated);
  if (can_look_blocked(seat)) start = std::min(start, start_of_run(record, from, may_be_blocked));
  DoubtsByDay found;
  add_blocked(seat, start, found);
  add_apart(seat, start, found);
  add_saturated(seat, start, found);
  const auto season = seat.out_of_season.lower_bound(start);
  for (auto day = season; day != seat.out_of_season.end(); ++day)
    found[day->first].insert(found[day->first].end(), day->second.begin(), day->second.end());
  const auto stood = seat.doubts.lower_bound(start);
  const auto changed = first_difference(DoubtsByDay(stood, seat.doubts.end()), found);
  if (!changed) return {};
  seat.doubts.erase(stood, seat.doubts.end());
  seat.doubts.merge(found);
  return changed;
}

void StationJudge::add(const Seat& seat, sys_days date, const Doubt& doubt,
                       DoubtsByDay& found) const {
  found[date].push_back(doubt);
  found[date].back().accepted = is_accepted(seat.station.id, doubt.quantity, date);
}

bool StationJudge::can_look_blocked(const Seat& seat) const {
  return !seat.neighbours.empty() || !foreseen_.empty();
}

/// The median of the neighbours that tell.
std::optional<double> StationJudge::rain_around(const Seat& seat, sys_days date) const {
  std::vector<double> rain_mm;
  for (const std::size_t neighbour : seat.neighbours) {
    const DayRecord* record = record_on(seats_[neighbour].station, date);
    if (record != nullptr && record->weather.rain_mm &&
        !record->flags.has(model::DayFlag::rain_doubtful))
      rain_mm.push_back(*record->weather.rain_mm);
  }
  if (rain_mm.empty()) return {};
  return median(std::move(rain_mm));
}

/// Run by run of days on which the gauge was as good as dry; doubted from its first wet day on.
void StationJudge::add_blocked(const Seat& seat, sys_days from, DoubtsByDay& found) const {
  if (!can_look_blocked(seat)) return;
  const StationRecord& record = *seat.station.record;
  for (auto day = record.lower_bound(from); day != record.end();) {
    std::vector<sys_days> since_wet;
    RainMissed around(limits::wet_around);
    RainMissed foreseen(limits::wet_as_forecast);
    for (; day != record.end() && may_be_blocked(day->second); ++day) {
      if (!day->second.weather.rain_mm) continue;
      const sys_days date = day->first;
      const auto said = foreseen_.find(date);
      bool is_wet = false;
      if (const auto rain_mm = rain_around(seat, date))
        is_wet = around.add(*rain_mm);
      else if (said != foreseen_.end())
        is_wet = foreseen.add(said->second);
      if (is_wet || !since_wet.empty()) since_wet.push_back(date);
    }
    if (around.speaks_against_the_gauge() || foreseen.speaks_against_the_gauge())
      for (const sys_days date : since_wet)
        add(seat, date, {.quantity = Quantity::rain, .kind = DoubtKind::blocked}, found);
    if (day != record.end()) ++day;
  }
}

void StationJudge::add_saturated(const Seat& seat, sys_days from, DoubtsByDay& found) const {
  std::vector<sys_days> run;
  const auto close_run = [&] {
    for (const sys_days date : run)
      if (run.size() >= limits::saturated_days)
        add(seat, date, {.quantity = Quantity::humidity, .kind = DoubtKind::saturated}, found);
    run.clear();
  };
  const StationRecord& record = *seat.station.record;
  for (auto day = record.lower_bound(from); day != record.end(); ++day) {
    const bool follows = run.empty() || day->first - run.back() == std::chrono::days{1};
    if (!follows || !is_saturated(day->second)) close_run();
    if (is_saturated(day->second)) run.push_back(day->first);
  }
  close_run();
}

/// Whether, of two that differ, this one is farther from its own season.
bool StationJudge::is_farther_off(Seat& seat, Seat& other, sys_days date) {
  const auto own = seat.norms.before_year_of(date, seat.out_of_season);
  const auto others = other.norms.before_year_of(date, other.out_of_season);
  if (!own || !others) return false;
  const auto off = [date](const Seat& from, const SeasonNorms::Extremes& norms) {
    return std::fabs(mean_temperature_c(from.station, date).value_or(0.0) -
                     (norms.tmin_c.mean + norms.tmax_c.mean) / 2.0);
  };
  return off(seat, *own) > off(other, *others);
}

void StationJudge::add_apart(Seat& seat, sys_days from, DoubtsByDay& found) {
  if (seat.neighbours.empty()) return;
  const StationRecord& record = *seat.station.record;
  for (auto day = record.lower_bound(from); day != record.end(); ++day) {
    const auto own = mean_temperature_c(seat.station, day->first);
    if (!own) continue;
    std::vector<double> around;
    std::size_t last = 0;
    for (const std::size_t neighbour : seat.neighbours) {
      const JudgedStation& other = seats_[neighbour].station;
      const auto mean = mean_temperature_c(other, day->first);
      if (!mean) continue;
      const double higher_m = seat.station.elevation_m - other.elevation_m;
      around.push_back(*mean - limits::lapse_c_per_m * higher_m);
      last = neighbour;
    }
    if (around.empty() || std::fabs(*own - median(around)) <= limits::apart_c) continue;
    if (around.size() > 1 || is_farther_off(seat, seats_[last], day->first))
      add(seat, day->first, {.quantity = Quantity::temperature, .kind = DoubtKind::apart}, found);
  }
}

}  // namespace gley::daemon

#include "daemon/engine/outlook/outlook_job.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "daemon/engine/judge/judgement.hpp"
#include "daemon/engine/outlook/member_days.hpp"
#include "daemon/engine/weather/rain_ahead.hpp"
#include "daemon/farm/field_setup.hpp"
#include "daemon/readings/hours.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

sys_days day_after(sys_days first, std::size_t by) {
  return first + days{static_cast<int>(by)};
}

double hours_ahead(Instant now, Instant time) {
  return Hours(time - now).count();
}

model::HoursAhead hours_ahead(Instant now, Instant from, Instant until) {
  return {.from_h = hours_ahead(now, from), .until_h = hours_ahead(now, until)};
}

std::vector<model::RainAhead> rain_ahead(const ForecastDays& ahead) {
  std::vector<model::RainAhead> steps;
  for (const RainStep& step : ahead.rain)
    steps.push_back(
        {.time = hours_ahead(ahead.now, step.from, step.until), .by_member_mm = step.by_member_mm});
  return steps;
}

/// Rain that counts as rain. Our choice.
constexpr double some_rain_mm = 1.0;

/// Where days of the outlook lie in time.
class Clock {
 public:
  Clock(const ForecastDays& ahead, const FarmCalendar& calendar)
      : ahead_(ahead), calendar_(calendar) {}

  /// Of a machine: the day that stops it does so when its rain sets in.
  [[nodiscard]] std::vector<TimeWindow> carried(
      const std::vector<model::DayWindow>& of_days) const {
    std::vector<TimeWindow> out;
    for (const model::DayWindow& own : of_days) {
      TimeWindow& window = out.emplace_back(whole_days(own));
      window.reaches_the_end = own.end >= ahead_.days;
      if (!window.reaches_the_end) window.to = closing_moment(own.end).value_or(window.to);
    }
    return out;
  }

  /// Of a material: a day that is not clear is so from its start, for the rain that follows.
  [[nodiscard]] std::vector<TimeWindow> clear(const std::vector<model::DayWindow>& of_days) const {
    std::vector<TimeWindow> out;
    out.reserve(of_days.size());
    for (const model::DayWindow& own : of_days) out.push_back(whole_days(own));
    return out;
  }

  /// When a day's rain sets in: a quarter of it has fallen, in the mean of the members. Nothing on
  /// a day with less than 1 mm. Our choice.
  [[nodiscard]] std::optional<Instant> closing_moment(std::size_t day) const {
    constexpr double little_mm = 1.0;
    constexpr double sets_in_share = 0.25;
    double total_mm = 0.0;
    for (const RainStep& step : ahead_.rain) total_mm += of_day(step, day) ? mean_mm(step) : 0.0;
    if (total_mm < little_mm) return {};
    double fallen_mm = 0.0;
    for (const RainStep& step : ahead_.rain) {
      if (!of_day(step, day)) continue;
      fallen_mm += mean_mm(step);
      if (fallen_mm < sets_in_share * total_mm) continue;
      return step.from > ahead_.now ? std::max(step.from, begins(day)) : step.until;
    }
    return {};
  }

  [[nodiscard]] Instant begins(std::size_t day) const {
    return calendar_.begins(day_after(ahead_.first, day));
  }

 private:
  [[nodiscard]] TimeWindow whole_days(const model::DayWindow& own) const {
    return {.from = begins(own.first), .to = begins(own.end), .chance = own.chance};
  }
  [[nodiscard]] bool of_day(const RainStep& step, std::size_t day) const {
    return calendar_.day_of_amount_until(step.until) == day_after(ahead_.first, day);
  }
  static double mean_mm(const RainStep& step) {
    double sum_mm = 0.0;
    for (const double own : step.by_member_mm) sum_mm += own;
    return sum_mm / static_cast<double>(step.by_member_mm.size());
  }

  const ForecastDays& ahead_;
  const FarmCalendar& calendar_;
};

/// The day's mean temperature as its extremes have it, which is how a measured one is told.
std::optional<double> mean_temperature_c(const model::DailyWeather& day) {
  if (day.tmin_c && day.tmax_c) return (*day.tmin_c + *day.tmax_c) / 2.0;
  return day.tmean_c;
}

/// What a forecast says of the days after the farm day on which it came; nothing on a later day.
/// in_use: the same with members of our making, if it had one.
std::vector<ForecastDay> issued(const ForecastDays& sent, const ForecastDays& in_use,
                                sys_days came_on) {
  std::vector<ForecastDay> out;
  if (came_on != sent.first) return out;
  for (std::size_t d = 1; d < sent.days; ++d) {
    ForecastDay day{.issued = sent.first,
                    .date = day_after(sent.first, d),
                    .members = static_cast<std::int64_t>(sent.members),
                    .tmean_c = member_mean(sent, d, mean_temperature_c),
                    .rain_members_mm = {}};
    day.rain_mm = member_mean(sent, d, &model::DailyWeather::rain_mm).value_or(0.0);
    for (const auto& member : in_use.weather)
      day.rain_members_mm.push_back(member[d].rain_mm.value_or(0.0));
    out.push_back(std::move(day));
  }
  return out;
}

model::OutlookQuestion question_of(const FarmConfig& farm) {
  model::OutlookQuestion question;
  if (farm.forecast) {
    question.least_chance = farm.forecast->window_chance;
    question.rules.spreading.heavy_rain_mm = farm.forecast->heavy_rain_mm;
  }
  for (const MachineConfig& machine : farm.machines)
    question.machines.push_back(model::machine_stress(load_of(machine), question.rules.ground));
  for (const MaterialConfig& material : farm.materials) question.materials.push_back(material.kind);
  return question;
}

}  // namespace

const FieldDaysAhead* days_ahead_of(const FarmOutlook* outlook, std::size_t field) {
  if (outlook == nullptr || field >= outlook->fields.size() || !outlook->fields[field])
    return nullptr;
  return &*outlook->fields[field];
}

OutlookJob::OutlookJob(const FarmState& state, std::shared_ptr<const ReceivedForecast> forecast,
                       std::vector<model::LeadErrors> errors, Instant now)
    : forecast_(std::move(forecast)),
      errors_(std::move(errors)),
      calendar_(state.calendar()),
      now_(now),
      days_(static_cast<std::size_t>(state.farm().forecast ? state.farm().forecast->days : 0)),
      question_(question_of(state.farm())) {
  const FieldBook& book = state.book();
  std::map<const WeatherSequence*, std::size_t> sequence_of;
  for (std::size_t i = 0; i < book.fields(); ++i) {
    const WeatherSequence& weather = book.weather(i);
    const auto [known, is_new] = sequence_of.emplace(&weather, sequences_.size());
    if (is_new) sequences_.push_back(weather.so_far(state.today()));
    if (!state.day_of(i)) {
      fields_.emplace_back();
      continue;
    }
    const FieldHistory& history = book.history(i);
    fields_.push_back(FieldCopy{
        .field = history.field(),
        .evening = history.last() ? history.last()->evening
                                  : model::start_of(history.field(), weather.today(state.today())),
        .frozen_before = history.last() && history.last()->ground.frozen,
        .place = spreading_place_of(book.config(i)),
        .sequence = known->second});
    if (state.day_if_wetter(i) != nullptr) fields_.back()->if_wetter = *book.evening_if_wetter(i);
  }
}

std::vector<model::WeatherAhead> OutlookJob::weather(
    const ForecastDays& ahead, const std::vector<model::RainAhead>& rain) const {
  const Clock clock(ahead, calendar_);
  std::vector<std::vector<bool>> heavy_rain;
  for (std::size_t d = 0; d + 1 < ahead.days; ++d)
    heavy_rain.push_back(model::brings_heavy_rain(
        rain, hours_ahead(now_, clock.begins(d), clock.begins(std::min(d + 3, ahead.days))),
        question_.rules.spreading.heavy_rain_mm));
  std::vector<model::WeatherAhead> weather(sequences_.size());
  for (std::size_t s = 0; s < sequences_.size(); ++s) {
    for (const auto& member : ahead.weather)
      weather[s].members.push_back(days_ahead(sequences_[s], member));
    weather[s].heavy_rain = heavy_rain;
    weather[s].share_of_today_left =
        hours_ahead(now_, clock.begins(1)) / hours_ahead(clock.begins(0), clock.begins(1));
  }
  return weather;
}

FieldDaysAhead OutlookJob::look(const FieldCopy& field, const model::WeatherAhead& weather,
                                const ForecastDays& ahead) const {
  const Clock clock(ahead, calendar_);
  const model::FieldOutlook found =
      model::field_outlook({field.field, field.evening, field.frozen_before, field.place,
                            field.if_wetter ? &*field.if_wetter : nullptr},
                           weather, question_);
  FieldDaysAhead out;
  out.spreading = found.water;
  out.chance_at_capacity_48h = found.chance_at_capacity_48h;
  for (const auto& machine : found.machines) out.machines.push_back(clock.carried(machine));
  out.machine_chance = found.machine_chance;
  out.days = found.days;
  for (const auto& material : found.materials) out.materials.push_back(clock.clear(material));
  return out;
}

FarmOutlook OutlookJob::run() const {
  const ForecastDays sent = forecast_days(forecast_->forecast, calendar_, now_, days_);
  const bool alone = sent.days > 0 && sent.members == 1;
  const ForecastDays ahead = alone ? with_members(sent, calendar_, errors_) : sent;
  FarmOutlook out;
  out.made = now_;
  out.forecast_received = forecast_->received;
  out.members = ahead.members;
  out.days = ahead.days;
  out.problem = ahead.problem;
  out.fields.resize(fields_.size());
  if (ahead.days == 0) return out;
  const Clock clock(ahead, calendar_);
  out.today = ahead.first;
  out.today_ends = clock.begins(1);
  out.today_closes = clock.closing_moment(0).value_or(out.today_ends);
  out.rain_days = rain_by_day(ahead, calendar_);
  out.rain_48h = rain_within_48h(ahead);
  out.issued = issued(sent, ahead, calendar_.day_of(forecast_->received));
  const std::vector<model::RainAhead> rain = rain_ahead(ahead);
  const model::HeavyRain heavy =
      model::heavy_rain_within_48h(rain, question_.rules.spreading.heavy_rain_mm);
  if (const auto in_h = model::hours_until_rain(rain, some_rain_mm))
    out.rain_at = now_ + std::chrono::milliseconds(std::llround(*in_h * 3600e3));
  const std::vector<model::WeatherAhead> weather = this->weather(ahead, rain);
  for (std::size_t i = 0; i < fields_.size(); ++i) {
    if (!fields_[i]) continue;
    out.fields[i] = look(*fields_[i], weather[fields_[i]->sequence], ahead);
    out.fields[i]->spreading.chance_heavy_rain_48h = heavy.chance;
    out.fields[i]->spreading.hours_to_heavy_rain = heavy.in_hours;
  }
  return out;
}

}  // namespace gley::daemon

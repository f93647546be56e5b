#include "daemon/engine/outlook_job.hpp"

#include <map>

#include "daemon/engine/judgement.hpp"

namespace gley::daemon {

namespace {

using std::chrono::days;
using std::chrono::sys_days;

sys_days day_after(sys_days first, std::size_t by) {
  return first + days{static_cast<int>(by)};
}

double hours_ahead(Instant now, Instant time) {
  return std::chrono::duration<double, std::ratio<3600>>(time - now).count();
}

model::HeavyRain heavy_rain(const ForecastDays& ahead, double heavy_mm) {
  std::vector<model::RainAhead> steps;
  for (const RainStep& step : ahead.rain)
    steps.push_back({.from_h = hours_ahead(ahead.now, step.from),
                     .until_h = hours_ahead(ahead.now, step.until),
                     .by_member_mm = step.by_member_mm});
  return model::heavy_rain_within_48h(steps, heavy_mm);
}

/// Where days of the outlook lie in time.
class Clock {
 public:
  Clock(const ForecastDays& ahead, const FarmCalendar& calendar)
      : ahead_(ahead), calendar_(calendar) {}

  [[nodiscard]] std::vector<TimeWindow> windows(
      const std::vector<model::DayWindow>& of_days) const {
    std::vector<TimeWindow> out;
    for (const model::DayWindow& own : of_days) {
      const bool at_end = own.end >= ahead_.days;
      const Instant to = at_end ? calendar_.begins(day_after(ahead_.first, own.end))
                                : closing_moment(own.end).value_or(begins(own.end));
      out.push_back(
          {.from = begins(own.first), .to = to, .chance = own.chance, .reaches_the_end = at_end});
    }
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
      if (fallen_mm >= sets_in_share * total_mm) return std::max(step.from, begins(day));
    }
    return {};
  }

  [[nodiscard]] Instant begins(std::size_t day) const {
    return calendar_.begins(day_after(ahead_.first, day));
  }

 private:
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

model::OutlookQuestion question_of(const FarmConfig& farm) {
  model::OutlookQuestion question;
  for (const MachineConfig& machine : farm.machines)
    question.machines.push_back(model::machine_stress(load_of(machine), question.rules.ground));
  for (const MaterialConfig& material : farm.materials) question.materials.push_back(material.kind);
  return question;
}

}  // namespace

OutlookJob::OutlookJob(const FarmState& state, std::shared_ptr<const ReceivedForecast> forecast,
                       Instant now)
    : forecast_(std::move(forecast)),
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
    const FieldConfig& config = book.config(i);
    const FieldHistory& history = book.history(i);
    fields_.push_back(FieldCopy{
        .field = history.field(),
        .evening = history.last() ? history.last()->evening
                                  : model::start_of(history.field(), weather.today(state.today())),
        .frozen_before = history.last() && history.last()->ground.frozen,
        .place = {config.slope_pct, config.water_distance_m, config.spring_distance_m},
        .sequence = known->second});
  }
}

FarmOutlook OutlookJob::run() const {
  const ForecastDays ahead = forecast_days(forecast_->forecast, calendar_, now_, days_);
  FarmOutlook out;
  out.made = now_;
  out.forecast_received = forecast_->received;
  out.members = ahead.members;
  out.days = ahead.days;
  out.problem = ahead.problem;
  out.fields.resize(fields_.size());
  if (ahead.days == 0) return out;
  const Clock clock(ahead, calendar_);
  out.today_ends = clock.begins(1);
  out.today_closes = clock.closing_moment(0).value_or(out.today_ends);
  const model::HeavyRain heavy = heavy_rain(ahead, question_.rules.spreading.heavy_rain_mm);
  std::vector<model::WeatherAhead> weather(sequences_.size());
  for (std::size_t s = 0; s < sequences_.size(); ++s) {
    for (const auto& member : ahead.weather)
      weather[s].members.push_back(days_ahead(sequences_[s], member));
    weather[s].share_of_today_left =
        hours_ahead(now_, clock.begins(1)) / hours_ahead(clock.begins(0), clock.begins(1));
  }
  for (std::size_t i = 0; i < fields_.size(); ++i) {
    if (!fields_[i]) continue;
    const FieldCopy& own = *fields_[i];
    const model::FieldAhead field{own.field, own.evening, own.frozen_before, own.place};
    const model::FieldOutlook found = model::field_outlook(field, weather[own.sequence], question_);
    FieldDaysAhead& of_field = out.fields[i].emplace();
    of_field.spreading = found.water;
    of_field.spreading.chance_heavy_rain_48h = heavy.chance;
    of_field.spreading.hours_to_heavy_rain = heavy.in_hours;
    of_field.chance_at_capacity_48h = found.chance_at_capacity_48h;
    for (const auto& machine : found.machines) of_field.machines.push_back(clock.windows(machine));
    for (const auto& material : found.materials)
      of_field.materials.push_back(clock.windows(material));
  }
  return out;
}

}  // namespace gley::daemon

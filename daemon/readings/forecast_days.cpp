#include "daemon/readings/forecast_days.hpp"

#include <algorithm>

#include "daemon/text/date_text.hpp"
#include "model/weather/wind.hpp"

namespace gley::daemon {

namespace {

using model::DailyWeather;
using std::chrono::days;
using std::chrono::milliseconds;
using std::chrono::sys_days;

/// A forecast may fall so much short of a day's end, or of now. Our choice.
constexpr std::chrono::hours let_pass{3};

/// When a step's amount begins to fall. Before the first time nothing is said: its step counts as
/// long as the next one.
Instant step_begins(const ForecastSeries& series, std::size_t t) {
  if (t > 0) return series.times[t - 1];
  return series.times[0] - (series.times[1] - series.times[0]);
}

bool all_known(const ForecastSeries& series, std::size_t t) {
  return std::all_of(series.members.begin(), series.members.end(),
                     [t](const auto& member) { return member[t].has_value(); });
}

/// Until when rain is told without a gap, from now on; nothing if it begins too late.
std::optional<Instant> told_until(const ForecastSeries& rain, Instant now) {
  std::optional<Instant> until;
  for (std::size_t t = 0; t < rain.times.size(); ++t) {
    if (rain.times[t] <= now) continue;
    if (!all_known(rain, t)) break;
    if (!until && step_begins(rain, t) > now + let_pass) break;
    until = rain.times[t];
  }
  return until;
}

/// Share of a step's amount that falls after `now`, as if it fell evenly.
double share_to_come(Instant from, Instant until, Instant now) {
  if (now <= from) return 1.0;
  return std::chrono::duration<double>(until - now) / std::chrono::duration<double>(until - from);
}

/// One member's numbers of one day.
struct Numbers {
  std::vector<double> values;
  [[nodiscard]] double least() const { return *std::min_element(values.begin(), values.end()); }
  [[nodiscard]] double most() const { return *std::max_element(values.begin(), values.end()); }
  [[nodiscard]] double sum() const {
    double total = 0.0;
    for (const double value : values) total += value;
    return total;
  }
  [[nodiscard]] double mean() const { return sum() / static_cast<double>(values.size()); }
};

class Days {
 public:
  Days(const Forecast& forecast, const FarmCalendar& calendar, Instant now)
      : forecast_(forecast), calendar_(calendar), now_(now) {}

  [[nodiscard]] DailyWeather weather(std::size_t member, sys_days day) const {
    DailyWeather out;
    out.rain_mm = rain_to_come(member, day);
    set_temperature(out, of(Quantity::temperature, member, day));
    set_humidity(out, member, day);
    if (const Numbers wind = of(Quantity::wind, member, day); !wind.values.empty())
      out.wind_m_s =
          model::wind_at_2m_m_s({.speed_m_s = wind.mean(), .height_m = forecast_.wind_height_m});
    set_sun(out, member, day);
    return out;
  }

 private:
  /// Values by the clock, amounts by the rule for amounts.
  [[nodiscard]] Numbers of(Quantity quantity, std::size_t member, sys_days day) const {
    Numbers out;
    const ForecastSeries* series = forecast_.find(quantity);
    if (series == nullptr) return out;
    const bool amount = series->form == ReadingForm::interval;
    const Instant begins = calendar_.begins(day);
    const Instant ends = calendar_.ends(day);
    const auto& values = series->of(member);
    for (std::size_t t = 0; t < values.size(); ++t) {
      const Instant time = series->times[t] - (amount ? milliseconds{1} : milliseconds{0});
      if (values[t] && time >= begins && time < ends) out.values.push_back(*values[t]);
    }
    return out;
  }

  [[nodiscard]] double rain_to_come(std::size_t member, sys_days day) const {
    const ForecastSeries& rain = *forecast_.find(Quantity::rain);
    const Instant begins = calendar_.begins(day);
    const Instant ends = calendar_.ends(day);
    const auto& values = rain.of(member);
    double sum = 0.0;
    for (std::size_t t = 0; t < values.size(); ++t) {
      const Instant until = rain.times[t];
      if (!values[t] || until <= begins || until > ends || until <= now_) continue;
      sum += *values[t] * share_to_come(step_begins(rain, t), until, now_);
    }
    return sum;
  }

  static void set_temperature(DailyWeather& out, const Numbers& seen) {
    if (seen.values.empty()) return;
    out.tmean_c = seen.mean();
    if (seen.values.size() < 2) return;
    out.tmin_c = seen.least();
    out.tmax_c = seen.most();
  }

  void set_humidity(DailyWeather& out, std::size_t member, sys_days day) const {
    if (const Numbers dew = of(Quantity::dew_point, member, day); !dew.values.empty())
      out.dew_point_c = dew.mean();
    const Numbers humidity = of(Quantity::humidity, member, day);
    if (humidity.values.empty()) return;
    out.rh_mean_pct = humidity.mean();
    if (humidity.values.size() < 2) return;
    out.rh_min_pct = humidity.least();
    out.rh_max_pct = humidity.most();
  }

  /// Half a day's sun says little of the whole day's: only of days told from end to end.
  void set_sun(DailyWeather& out, std::size_t member, sys_days day) const {
    if (told_whole(Quantity::sunshine, day)) out.sun_h = of(Quantity::sunshine, member, day).sum();
    if (!told_whole(Quantity::radiation, day)) return;
    const Numbers radiation = of(Quantity::radiation, member, day);
    if (radiation.values.empty()) return;
    constexpr double mj_a_day_per_w = 86400.0 / 1e6;
    const bool amount = forecast_.find(Quantity::radiation)->form == ReadingForm::interval;
    out.solar_mj_m2 = amount ? radiation.sum() : std::max(0.0, radiation.mean() * mj_a_day_per_w);
  }

  [[nodiscard]] bool told_whole(Quantity quantity, sys_days day) const {
    const ForecastSeries* series = forecast_.find(quantity);
    if (series == nullptr) return false;
    return step_begins(*series, 0) <= calendar_.begins(day) + let_pass &&
           series->times.back() >= calendar_.ends(day) - let_pass;
  }

  const Forecast& forecast_;
  const FarmCalendar& calendar_;
  Instant now_;
};

std::vector<RainStep> steps_to_come(const ForecastSeries& rain, std::size_t members, Instant now) {
  std::vector<RainStep> steps;
  for (std::size_t t = 0; t < rain.times.size(); ++t) {
    if (rain.times[t] <= now || !all_known(rain, t)) continue;
    const Instant begins = step_begins(rain, t);
    RainStep step{std::max(begins, now), rain.times[t], {}};
    const double share = share_to_come(begins, rain.times[t], now);
    for (std::size_t m = 0; m < members; ++m) step.by_member_mm.push_back(*rain.of(m)[t] * share);
    steps.push_back(std::move(step));
  }
  return steps;
}

}  // namespace

ForecastDays forecast_days(const Forecast& forecast, const FarmCalendar& calendar, Instant now,
                           std::size_t most_days) {
  ForecastDays out;
  out.now = now;
  out.first = calendar.day_of(now);
  out.members = forecast.members;
  const ForecastSeries& rain = *forecast.find(Quantity::rain);
  const std::optional<Instant> until = told_until(rain, now);
  while (until && out.days < most_days &&
         *until >= calendar.ends(out.first + days{static_cast<int>(out.days)}) - let_pass)
    ++out.days;
  if (out.days < most_days)
    out.problem = until
                      ? "the forecast stops, or has a gap, on " + date_text(calendar.day_of(*until))
                      : "the forecast says nothing of the next hours";
  const Days reader(forecast, calendar, now);
  for (std::size_t m = 0; m < out.members; ++m) {
    std::vector<DailyWeather>& own = out.weather.emplace_back();
    for (std::size_t d = 0; d < out.days; ++d)
      own.push_back(reader.weather(m, out.first + days{static_cast<int>(d)}));
  }
  out.rain = steps_to_come(rain, out.members, now);
  return out;
}

}  // namespace gley::daemon

#include "daemon/engine/outlook/outlook_desk.hpp"

#include <spdlog/spdlog.h>

#include <utility>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {

namespace {

constexpr std::chrono::minutes between_outlooks{1};

/// Older pairs no longer count: forecasts change. Our choice.
constexpr std::chrono::days scores_look_back{365};

std::optional<FarmOutlook> run_or_log(const OutlookJob& job) {
  try {
    return job.run();
  } catch (const std::exception& error) {
    spdlog::error("outlook not worked out: {}", error.what());
    return {};
  }
}

}  // namespace

OutlookDesk::OutlookDesk(const FarmConfig& farm, Database& database, RunApart apart,
                         std::function<void()> on_ready)
    : calendar_(farm.time_zone, farm.day_starts),
      forecasts_(farm, database),
      said_(database),
      apart_(std::move(apart)),
      on_ready_(std::move(on_ready)),
      self_(std::make_shared<OutlookDesk*>(this)) {}

void OutlookDesk::catch_up() {
  if (!forecasts_.catch_up()) return;
  forecast_waits_ = true;
  expected_.reset();
}

const std::optional<ExpectedDay>& OutlookDesk::expected_today(Instant now) {
  static const std::optional<ExpectedDay> nothing;
  if (!forecasts_.is_fresh(now)) return nothing;
  const auto today = calendar_.day_of(now);
  if (!expected_ || expected_->date != today)
    expected_ = mean_day(forecasts_.newest()->forecast, now);
  return expected_;
}

ExpectedDay OutlookDesk::mean_day(const Forecast& forecast, Instant now) const {
  const ForecastDays ahead = forecast_days(forecast, calendar_, now, 1);
  ExpectedDay day{ahead.first, {}};
  if (ahead.days == 0) return day;
  using Weather = model::DailyWeather;
  for (const auto value :
       {&Weather::tmin_c, &Weather::tmax_c, &Weather::tmean_c, &Weather::rh_min_pct,
        &Weather::rh_max_pct, &Weather::rh_mean_pct, &Weather::dew_point_c, &Weather::wind_m_s,
        &Weather::sun_h, &Weather::solar_mj_m2})
    day.weather.*value = member_mean(ahead, 0, value);
  return day;
}

void OutlookDesk::look(const FarmState& state, Instant now) {
  const bool first_look = !std::exchange(looked_, true);
  if (runs_ || !forecasts_.is_fresh(now)) return;
  const bool due = forecast_waits_ || !begun_ || now < *begun_ || now - *begun_ >= between_outlooks;
  if (!due) return;
  begun_ = now;
  forecast_waits_ = false;
  keep_record(state);
  auto job = std::make_shared<const OutlookJob>(state, forecasts_.newest(), record_.errors, now);
  // At a start or a reload nobody shall read that there is no outlook while there is one to come.
  if (!apart_ || first_look) {
    last_ = run_or_log(*job);
    if (last_) store_issue(last_->issued);
    return;
  }
  runs_ = true;
  apart_([job, alive = std::weak_ptr(self_)]() -> std::function<void()> {
    auto outlook = std::make_shared<std::optional<FarmOutlook>>(run_or_log(*job));
    return [outlook, alive] {
      if (const auto desk = alive.lock()) (*desk)->finish(std::move(*outlook));
    };
  });
}

void OutlookDesk::finish(std::optional<FarmOutlook> outlook) {
  runs_ = false;
  if (!outlook) return;
  last_ = std::move(outlook);
  store_issue(last_->issued);
  on_ready_();
}

const FarmOutlook* OutlookDesk::outlook(Instant now) const {
  return last_ && now - last_->forecast_received < forecast_is_fresh ? &*last_ : nullptr;
}

/// Once a farm day: a day that ended is what makes a new pair.
void OutlookDesk::keep_record(const FarmState& state) {
  if (record_of_ == state.today() || state.book().fields() == 0) return;
  record_ = forecast_record(said_.since(state.today() - scores_look_back),
                            state.book().weather(0).days());
  record_of_ = state.today();
}

void OutlookDesk::store_issue(const std::vector<ForecastDay>& issued) {
  if (issued.empty() || stored_issue_ == issued.front().issued) return;
  try {
    said_.put(issued);
    stored_issue_ = issued.front().issued;
  } catch (const StoreError& error) {
    spdlog::warn("what the forecast said is not kept for its score: {}", error.what());
  }
}

std::optional<ForecastView> OutlookDesk::view() const {
  if (!forecasts_.newest()) return {};
  ForecastView view;
  view.received = forecasts_.newest()->received;
  view.members_sent = forecasts_.newest()->forecast.members;
  view.unused = forecasts_.newest()->forecast.unused;
  if (last_ && last_->forecast_received == view.received) {
    view.members = last_->members;
    view.days = last_->days;
    view.problem = last_->problem;
    view.rain_days = last_->rain_days;
    view.rain_48h = last_->rain_48h;
  }
  view.scores = record_.scores;
  return view;
}

}  // namespace gley::daemon

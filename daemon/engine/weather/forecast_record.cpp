#include "daemon/engine/weather/forecast_record.hpp"

#include <algorithm>

#include "daemon/engine/weather/rain_ahead.hpp"

namespace gley::daemon {

namespace {

using model::DayFlag;

const model::StationDay* day_of(const std::vector<model::StationDay>& weather,
                                std::chrono::sys_days date) {
  if (weather.empty()) return nullptr;
  const auto index = (date - weather.front().date).count();
  const bool known = index >= 0 && index < static_cast<long>(weather.size());
  return known ? &weather[static_cast<std::size_t>(index)] : nullptr;
}

void add_errors(model::LeadErrors& errors, const ForecastDay& forecast,
                const model::StationDay& day) {
  errors.rain.push_back({.forecast_mm = forecast.rain_mm, .observed_mm = *day.weather.rain_mm});
  const bool measured =
      !day.flags.has(DayFlag::temperature_estimated) && day.weather.tmin_c && day.weather.tmax_c;
  if (!measured || !forecast.tmean_c) return;
  errors.warmer_c.push_back((*day.weather.tmin_c + *day.weather.tmax_c) / 2.0 - *forecast.tmean_c);
}

}  // namespace

ForecastRecord forecast_record(const std::vector<ForecastDay>& forecasts,
                               const std::vector<model::StationDay>& weather) {
  ForecastRecord record;
  std::vector<std::vector<model::ChancePair>> chances;
  for (const ForecastDay& forecast : forecasts) {
    const model::StationDay* day = day_of(weather, forecast.date);
    const bool measured =
        day != nullptr && day->weather.rain_mm && !day->flags.has(DayFlag::rain_missing);
    if (!measured || forecast.lead_days() < 1 || forecast.rain_members_mm.empty()) continue;
    const auto lead = static_cast<std::size_t>(forecast.lead_days());
    chances.resize(std::max(chances.size(), lead));
    record.scores.resize(chances.size());
    record.errors.resize(chances.size() + 1);
    const double chance = chance_of_rain(forecast.rain_members_mm);
    const bool rained = *day->weather.rain_mm >= rain_day_mm;
    chances[lead - 1].push_back({chance, rained});
    ForecastScoreView& score = record.scores[lead - 1];
    ++score.pairs;
    score.right += (chance >= 0.5) == rained ? 1 : 0;
    score.crps_mm += model::crps(forecast.rain_members_mm, *day->weather.rain_mm);
    if (forecast.members == 1) add_errors(record.errors[lead], forecast, *day);
  }
  for (std::size_t i = 0; i < chances.size(); ++i) {
    ForecastScoreView& score = record.scores[i];
    score.lead_days = static_cast<long>(i) + 1;
    score.brier = model::brier_score(chances[i]);
    if (score.pairs > 0) score.crps_mm /= static_cast<double>(score.pairs);
  }
  return record;
}

}  // namespace gley::daemon

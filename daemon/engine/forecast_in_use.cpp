#include "daemon/engine/forecast_in_use.hpp"

#include <spdlog/spdlog.h>

namespace gley::daemon {

namespace {

/// Kept for a look back; what scores need of them is kept apart.
constexpr std::chrono::days forecasts_are_kept{30};

}  // namespace

ForecastTerms forecast_terms(const FarmConfig& farm) {
  return {.names = farm.forecast ? farm.forecast->parameters : std::map<std::string, std::string>{},
          .latitude = farm.latitude,
          .longitude = farm.longitude,
          .calendar = FarmCalendar(farm.time_zone, farm.day_starts)};
}

ForecastInUse::ForecastInUse(const FarmConfig& farm, Database& database)
    : store_(database), terms_(forecast_terms(farm)) {
  catch_up();
}

bool ForecastInUse::catch_up() {
  const std::vector<StoredForecast> gained = store_.after(seen_id_);
  if (gained.empty()) return false;
  seen_id_ = gained.back().id;
  for (auto stored = gained.rbegin(); stored != gained.rend(); ++stored) {
    DecodedForecast decoded = decode_forecast(terms_, stored->payload, stored->received);
    if (!decoded) {
      spdlog::warn("{}: {}", stored->topic, decoded.error().detail);
      continue;
    }
    newest_ = std::make_shared<const ReceivedForecast>(
        ReceivedForecast{std::move(*decoded), stored->received});
    store_.forget_before(stored->received - forecasts_are_kept);
    return true;
  }
  return false;
}

bool ForecastInUse::is_fresh(Instant now) const {
  return newest_ && now - newest_->received < forecast_is_fresh;
}

}  // namespace gley::daemon

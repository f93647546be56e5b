#include "daemon/engine/weather/forecast_in_use.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>

#include "daemon/store/store_error.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {

namespace {

/// Kept for a look back; what scores need of them is kept apart.
constexpr std::chrono::days forecasts_are_kept{30};

}  // namespace

ForecastTerms forecast_terms(const FarmConfig& farm) {
  return {.names = farm.forecast ? farm.forecast->parameters : std::map<std::string, std::string>{},
          .latitude = farm.latitude,
          .longitude = farm.longitude,
          .calendar = FarmCalendar(farm.time_zone, farm.day_starts),
          .wind_height_m = farm.forecast.value_or(ForecastConfig{}).wind_height_m};
}

ForecastInUse::ForecastInUse(const FarmConfig& farm, Database& database)
    : store_(database),
      topic_(farm.forecast ? farm.forecast->topic : std::string()),
      terms_(forecast_terms(farm)) {
  const std::optional<StoredForecast> newest = store_.newest();
  if (!newest) return;
  seen_id_ = newest->id;
  take(*newest);
}

/// One of a topic that is no longer named is not ours.
bool ForecastInUse::take(const StoredForecast& stored) {
  if (topic_.empty() || !topic_matches(topic_, stored.topic)) return false;
  DecodedForecast decoded = decode_forecast(terms_, stored.payload, stored.received);
  if (!decoded) {
    spdlog::warn("{}: {}", stored.topic, decoded.error().detail);
    return false;
  }
  newest_ = std::make_shared<const ReceivedForecast>(
      ReceivedForecast{std::move(*decoded), stored.received});
  return true;
}

bool ForecastInUse::catch_up() {
  const std::vector<StoredForecast> gained = store_.after(seen_id_);
  if (gained.empty()) return false;
  seen_id_ = gained.back().id;
  const bool taken = std::any_of(gained.rbegin(), gained.rend(),
                                 [this](const StoredForecast& stored) { return take(stored); });
  try {
    store_.forget_before(gained.back().received - forecasts_are_kept);
  } catch (const StoreError& error) {
    spdlog::warn("old forecasts are not removed: {}", error.what());
  }
  return taken;
}

bool ForecastInUse::is_fresh(Instant now) const {
  return newest_ && now - newest_->received < forecast_is_fresh;
}

}  // namespace gley::daemon

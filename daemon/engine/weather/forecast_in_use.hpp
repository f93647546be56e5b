#pragma once
#include <memory>
#include <utility>

#include "daemon/readings/forecast.hpp"
#include "daemon/store/forecast_store.hpp"

namespace gley::daemon {

/// What the farm's configuration says of reading its forecast.
[[nodiscard]] ForecastTerms forecast_terms(const FarmConfig& farm);

/// An older one is shown with its age and not believed.
inline constexpr std::chrono::hours forecast_is_fresh{24};

/// A forecast as it stands in the store, read.
struct ReceivedForecast {
  Forecast forecast;
  Instant received{};
};

/// The newest forecast of the store that can be read. The thread of its Database.
class ForecastInUse {
 public:
  ForecastInUse(const FarmConfig& farm, Database& database);

  /// Takes in what the store has gained; tells whether the forecast is another one now.
  bool catch_up();

  /// Uses one that the store does not hold, until the store gains another.
  void try_out(Forecast forecast, Instant now) {
    newest_ = std::make_shared<const ReceivedForecast>(ReceivedForecast{std::move(forecast), now});
  }

  /// Null before the first.
  [[nodiscard]] const std::shared_ptr<const ReceivedForecast>& newest() const { return newest_; }

  /// Whether there is one younger than a day.
  [[nodiscard]] bool is_fresh(Instant now) const;

 private:
  bool take(const StoredForecast& stored);

  ForecastStore store_;
  std::string topic_;  ///< may hold MQTT wildcards; empty: no forecast is asked for
  ForecastTerms terms_;
  std::shared_ptr<const ReceivedForecast> newest_;
  std::int64_t seen_id_ = 0;
};

}  // namespace gley::daemon

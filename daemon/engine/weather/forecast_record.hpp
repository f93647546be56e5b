#pragma once
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/weather/weather_sequence.hpp"
#include "daemon/store/forecast_day_store.hpp"
#include "model/outlook/members.hpp"

namespace gley::daemon {

/// What became of the farm's forecasts: nothing but the forecasts' days and the farm's weather
/// decides it. By lead day, 1 first.
struct ForecastRecord {
  std::vector<ForecastScoreView> scores;
  /// By lead day, 0 first and empty: of forecasts that came with one member.
  std::vector<model::LeadErrors> errors;
};

/// weather: of the farm's first field. Days without measured rain give no pair, days without
/// measured temperatures none for warmth.
[[nodiscard]] ForecastRecord forecast_record(const std::vector<ForecastDay>& forecasts,
                                             const std::vector<model::StationDay>& weather);

}  // namespace gley::daemon

#pragma once
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/weather/forecast_in_use.hpp"
#include "daemon/readings/forecast_days.hpp"
#include "daemon/store/forecast_day_store.hpp"
#include "model/outlook/field_outlook.hpp"
#include "model/outlook/heavy_rain.hpp"
#include "model/outlook/members.hpp"

namespace gley::daemon {

/// A run of time in which a machine is carried, or spreading is clear.
struct TimeWindow {
  Instant from{};
  Instant to{};
  double chance = 0.0;
  bool reaches_the_end = false;  ///< of what the forecast tells: a machine may be carried longer
};

/// A field's coming days as the farm's clock has them.
struct FieldDaysAhead {
  model::SpreadingOutlook spreading;
  double chance_at_capacity_48h = 0.0;
  std::vector<std::vector<TimeWindow>> machines;  ///< in the order of the configuration
  std::vector<std::vector<TimeWindow>> materials;
  std::vector<std::vector<double>> machine_chance;  ///< by machine and day that it is carried
  std::vector<model::DaySpread> days;               ///< today first
};

/// The farm's coming days under one forecast.
struct FarmOutlook {
  Instant made{};
  Instant forecast_received{};
  std::size_t members = 0;
  std::size_t days = 0;
  std::string problem;     ///< why there are fewer days than asked for
  Instant today_closes{};  ///< when, if today closes what is carried now
  Instant today_ends{};
  std::optional<Instant> rain_at = {};  ///< when half of the members have had 1 mm
  std::chrono::sys_days today{};
  std::vector<std::optional<FieldDaysAhead>> fields;  ///< in the order of the configuration
  std::vector<RainAheadView> rain_days;
  std::optional<RainAheadView> rain_48h;
  std::vector<ForecastDay> issued;  ///< what it says of the days to come, for their scores
};

/// A field's days in an outlook that may be null; null where it has none of it.
[[nodiscard]] const FieldDaysAhead* days_ahead_of(const FarmOutlook* outlook, std::size_t field);

/// All that an outlook rests on, copied, so that it can be worked out on another thread.
class OutlookJob {
 public:
  /// errors: of forecasts of one member, by lead day, 0 first.
  OutlookJob(const FarmState& state, std::shared_ptr<const ReceivedForecast> forecast,
             std::vector<model::LeadErrors> errors, Instant now);

  /// Any thread; the same job gives the same bytes.
  [[nodiscard]] FarmOutlook run() const;

 private:
  struct FieldCopy {
    model::Field field;
    model::FieldState evening;
    bool frozen_before = false;
    model::SpreadingPlace place;
    std::size_t sequence = 0;
    std::optional<model::FieldState> if_wetter = {};
  };

  [[nodiscard]] std::vector<model::WeatherAhead> weather(
      const ForecastDays& ahead, const std::vector<model::RainAhead>& rain) const;
  [[nodiscard]] FieldDaysAhead look(const FieldCopy& field, const model::WeatherAhead& weather,
                                    const ForecastDays& ahead) const;

  std::shared_ptr<const ReceivedForecast> forecast_;
  std::vector<model::LeadErrors> errors_;
  FarmCalendar calendar_;
  Instant now_;
  std::size_t days_;
  std::vector<TodaySoFar> sequences_;
  std::vector<std::optional<FieldCopy>> fields_;
  model::OutlookQuestion question_;
};

}  // namespace gley::daemon

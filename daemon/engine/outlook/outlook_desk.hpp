#pragma once
#include <functional>
#include <memory>
#include <optional>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"
#include "daemon/engine/weather/forecast_record.hpp"

namespace gley::daemon {

/// Runs work away from the thread that owns the state, then what it returns on that thread.
using RunApart = std::function<void(std::function<std::function<void()>()> work)>;

/// Keeps the farm's outlook: worked out anew at once after a forecast, else once a minute, one at a
/// time, away from the state's own thread. Owned by that thread.
class OutlookDesk {
 public:
  /// apart: empty to work on the spot. on_ready: an outlook was finished.
  OutlookDesk(const FarmConfig& farm, Database& database, RunApart apart,
              std::function<void()> on_ready);
  OutlookDesk(const OutlookDesk&) = delete;
  OutlookDesk& operator=(const OutlookDesk&) = delete;

  /// Takes in forecasts, before the state is looked at.
  void catch_up();

  /// What the forecast says of today, the mean of its members, without its rain; empty if there is
  /// none under 24 h old.
  [[nodiscard]] const std::optional<ExpectedDay>& expected_today(Instant now);

  /// Uses a forecast that the store does not hold, as if it had come now.
  void try_out(Forecast forecast, Instant now) { forecasts_.try_out(std::move(forecast), now); }

  /// Begins an outlook if one is due.
  void look(const FarmState& state, Instant now);

  /// The last outlook; null where no forecast is younger than 24 h.
  [[nodiscard]] const FarmOutlook* outlook(Instant now) const;

  /// The forecast in use, however old, and how forecasts did; empty before the first.
  [[nodiscard]] std::optional<ForecastView> view() const;

 private:
  void finish(std::optional<FarmOutlook> outlook);
  void keep_record(const FarmState& state);
  void store_issue(const std::vector<ForecastDay>& issued);
  [[nodiscard]] ExpectedDay mean_day(const Forecast& forecast, Instant now) const;

  FarmCalendar calendar_;
  ForecastInUse forecasts_;
  ForecastDayStore said_;
  ForecastRecord record_;
  std::optional<std::chrono::sys_days> record_of_;  ///< farm day on which it was made
  std::optional<std::chrono::sys_days> stored_issue_;
  RunApart apart_;
  std::function<void()> on_ready_;
  std::optional<FarmOutlook> last_;
  std::optional<ExpectedDay> expected_;
  std::optional<Instant> begun_;
  bool runs_ = false;
  bool forecast_waits_ = true;
  bool looked_ = false;
  /// Told to work in flight: whether its desk still stands.
  std::shared_ptr<OutlookDesk*> self_;
};

}  // namespace gley::daemon

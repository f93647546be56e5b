#pragma once
#include <optional>
#include <string>
#include <vector>

#include "daemon/alerts/alert.hpp"
#include "model/water/field_day.hpp"

namespace gley::daemon {

/// What the forecast makes of a field's next two days: chances, 0..1, over its members.
struct ChancesAhead {
  double at_capacity_48h = 0.0;
  double heavy_rain_48h = 0.0;
  double runoff_48h = 0.0;   ///< of 1 mm or more in a day
  double drains_48h = 0.0;   ///< that they run
  double drains_days = 0.0;  ///< that they run on any of the days after today, four at most
  double frozen_48h = 0.0;
};

/// How a field's days were before today, as far as alerts ask.
struct FieldBefore {
  int days_drains_dry = 0;  ///< in a row up to yesterday
  int days_drains_ran = 0;  ///< that they ran in the last seven
  bool drains_ran = false;  ///< yesterday
};

/// A machine whose windows on a field are told.
struct MachineMoment {
  std::string machine;
  /// Somebody may be waiting for the field to open: see WaitingRules.
  bool waiting = false;
  int days_carried = 0;                ///< since it opened, up to yesterday
  bool carries = false;                ///< now
  std::optional<Instant> opens = {};   ///< when a window begins in working hours, now perhaps
  std::optional<Instant> closes = {};  ///< when the window of now ends; empty: not in sight
};

/// A field at one moment, all that its alerts rest on.
struct FieldMoment {
  std::string id;
  model::FieldDay day;  ///< today so far
  FieldBefore before = {};
  std::optional<ChancesAhead> ahead = {};  ///< empty: no forecast under 24 h old
  bool fresh_dressing = false;
  std::vector<MachineMoment> machines = {};
};

/// From what an event counts, and below what one that stands no longer does, so that a value about
/// the limit does not repeat itself. Our choices, each.
struct AlertLimits {
  double capacity_chance = 0.3;
  double capacity_chance_ends = 0.2;
  double heavy_rain_chance = 0.3;  ///< as the spreading advice holds
  double heavy_rain_chance_ends = 0.15;
  double heavy_rain_mm = 10.0;
  double runoff_chance = 0.5;
  double runoff_chance_ends = 0.25;
  double runoff_mm = 1.0;
  double runoff_mm_ends = 0.5;
  double drains_start_chance = 0.6;
  double drains_start_chance_ends = 0.3;
  double drains_stop_chance = 0.3;  ///< of running again, at most
  double drains_stop_chance_ends = 0.5;
  int drains_settled_days = 7;  ///< dry before a start is told, run before a stop is
  double frozen_chance = 0.6;
  double frozen_chance_ends = 0.3;
  double least_cover = 0.2;       ///< less is no crop that could want water
  double short_ends_share = 0.8;  ///< of what is easily taken up on a day of 5 mm (FAO-56 Table 22)
  std::chrono::hours notice{24};  ///< how long before a window opens or closes it is told
};

/// Whether an event holds for a field. stands: an alert of it stands for the field already. Of the
/// water a field whose start is only assumed tells nothing.
[[nodiscard]] bool holds(AlertEvent event, const FieldMoment& field, const AlertLimits& limits,
                         bool stands);

/// The same for the events of windows, which are of one machine.
[[nodiscard]] bool holds(AlertEvent event, const MachineMoment& machine, Instant now,
                         const AlertLimits& limits);

/// When somebody may be waiting for a field: it was closed to the machine for some days running,
/// and has not been open for longer since than the work would take, nor did anyone report to have
/// driven there.
struct WaitingRules {
  int closed_days = 3;
  int open_days = 5;
};

/// Follows one machine on one field through its days, oldest first.
class Waiting {
 public:
  explicit Waiting(WaitingRules rules) : rules_(rules) {}
  void day(bool carried, bool driven);
  [[nodiscard]] bool waits() const { return waits_; }
  [[nodiscard]] int days_carried() const { return days_carried_; }

 private:
  WaitingRules rules_;
  int closed_ = 0;
  int days_carried_ = 0;
  bool waits_ = false;
};

}  // namespace gley::daemon

#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/farm/with_id.hpp"
#include "daemon/readings/reading.hpp"
#include "model/outlook/forecast_score.hpp"

/// What the screens, the topics and the terminal show: a copy of the engine's state at one moment,
/// made whole and never changed, so that any thread may read it. Words are those of the contracts.
namespace gley::daemon {

struct LayerView {
  double thickness_mm = 0.0;
  double theta = 0.0;  ///< volumetric water content, m3/m3
  double wilting_point = 0.0;
  double field_capacity = 0.0;
  double saturation = 0.0;
};

/// The next time in which a machine is carried, or spreading is clear.
struct WindowView {
  Instant from{};
  Instant to{};
  double probability = 0.0;  ///< 0..1

  friend bool operator==(const WindowView&, const WindowView&) = default;
};

struct MachineView {
  std::string id;
  std::string name;
  std::string verdict;  ///< carries, with care, keep off, not known
  std::optional<double> margin;
  std::vector<std::string> reasons;
  std::optional<Instant> until;
  std::optional<WindowView> next_window = {};
};

struct SpreadingView {
  std::string id;
  std::string name;
  std::string advice;  ///< clear, hold, not known
  std::vector<std::string> reasons;
  std::optional<WindowView> next_window = {};
  std::optional<double> n_at_risk_kg_ha = {};  ///< of a dressing at its rate, by the outlook
};

/// A material that was spread, as somebody told it.
struct DressingView {
  std::string material;
  double rate = 0.0;
  std::string unit;  ///< kg/ha, m3/ha, t/ha, l/ha
  Instant time{};
  std::string by;  ///< empty: nobody said

  friend bool operator==(const DressingView&, const DressingView&) = default;
};

/// What the record of days says of the ground of a report's day, and for how long it had said so:
/// the lead that a manager had before ruts were left, or that he had none.
struct ReportCheck {
  std::string machine;      ///< id that was judged; empty where the drains were
  std::string said;         ///< that day's verdict; of drains "running" or "dry"
  std::string since;        ///< first of the days on end that said the same
  long days_before = 0;     ///< from `since` to the report's day
  bool or_earlier = false;  ///< `since` is as far back as was looked, or as the record goes
  friend bool operator==(const ReportCheck&, const ReportCheck&) = default;
};

/// What somebody did or saw on a field.
struct ReportView {
  std::string report;   ///< drove, left ruts, drains running
  std::string machine;  ///< empty: not told
  Instant time{};
  std::string by;
  std::optional<ReportCheck> check = {};  ///< empty: nothing is on record of that day

  friend bool operator==(const ReportView&, const ReportView&) = default;
};

struct FieldView {
  std::string id;
  std::string name;
  std::string soil;      ///< "clay loam"
  std::string crop;      ///< "winter wheat"
  std::string drainage;  ///< free, moderate, slow, poor
  double slope_pct = 0.0;
  std::optional<double> area_ha = {};
  bool known = false;  ///< false until the first day of weather: then nothing below is meant
  std::string date;    ///< farm day the water stands for
  std::string wetness;
  double depletion_mm = 0.0;
  double topsoil_deficit_mm = 0.0;
  double surplus_mm = 0.0;
  double pond_mm = 0.0;
  double snow_mm = 0.0;
  double rain_today_mm = 0.0;
  double et0_mm = 0.0;
  std::optional<double> uncertainty_mm = {};  ///< wetter it may be: rain of some days not known
  bool drains_running = false;
  std::vector<LayerView> layers;
  std::vector<std::string> flags;
  std::vector<std::string> reasons;  ///< why this wetness, in plain words, most important first
  std::vector<MachineView> machines;
  std::vector<SpreadingView> spreading;
  std::string sign;                          ///< the verdict for the field's sign machine
  std::string sign_machine;                  ///< its id; empty where there is no machine
  std::string station;                       ///< the station its rain came from
  std::vector<DressingView> dressings = {};  ///< of the last 60 days, in order of time
  std::vector<ReportView> reports = {};      ///< the same
};

/// What is doubted at a station these days.
struct DoubtView {
  std::string quantity;
  std::string reason;      ///< "stuck", "blocked"
  std::string since;       ///< first of the farm days on which it was found, one after another
  std::string last;        ///< and the last
  bool accepted = false;   ///< a person said that it is right: it is used
  std::string what_to_do;  ///< one sentence

  friend bool operator==(const DoubtView&, const DoubtView&) = default;
};

struct StationView {
  std::string id;
  std::optional<Instant> last_heard;  ///< arrival of its last good reading
  bool silent = false;
  std::vector<DoubtView> doubts = {};
  long clock_behind_min = 0;  ///< by how much its times are steadily off; negative: ahead
};

struct AlertView {
  std::string id;
  std::vector<std::string> fields;       ///< ids
  std::vector<std::string> field_names;  ///< in the same order
  std::string event;
  std::string severity;   ///< CAP 1.2: Extreme, Severe, Moderate, Minor, Unknown
  std::string urgency;    ///< CAP 1.2: Immediate, Expected, Future, Past, Unknown
  std::string certainty;  ///< CAP 1.2: Observed, Likely, Possible, Unlikely, Unknown
  Instant onset{};
  std::string headline;
  std::string description;
  std::string instruction;
  std::optional<Instant> ended = {};
  std::string seen_by = {};  ///< who saw it first; empty: nobody yet
  std::optional<Instant> seen = {};
};

/// How the daemon itself is doing.
struct ServiceView {
  bool broker_connected = false;
  std::string broker;             ///< "localhost:1883"
  std::string broker_message;     ///< why not connected, in plain words; empty when all is well
  std::string store_message;      ///< what keeps readings from being stored; empty when all is well
  std::uint64_t clock_jumps = 0;  ///< since this process began
  std::uint64_t readings_stored = 0;
  std::uint64_t readings_repeated = 0;
  std::vector<std::pair<std::string, std::uint64_t>> rejected;  ///< by Rejection word
  std::uint64_t told = 0;  ///< dressings and reports that came over MQTT or HTTP
  std::vector<std::pair<std::string, std::uint64_t>> told_refused = {};  ///< by TellFault word
  std::vector<std::string> complaints;  ///< latest rejected payload per topic, for the page
  std::optional<Instant> started;       ///< when this process began

  friend bool operator==(const ServiceView&, const ServiceView&) = default;
};

/// How forecasts so many days ahead did.
struct ForecastScoreView {
  long lead_days = 1;
  std::size_t pairs = 0;    ///< forecasts that a measured day answered
  std::size_t right = 0;    ///< rain or none, told as more likely than not, and so it came
  model::BrierScore brier;  ///< of rain of 1 mm or more
  double crps_mm = 0.0;     ///< mean, of the day's rain
};

/// Fewer pairs tell nothing.
inline constexpr std::size_t pairs_for_a_score = 30;

/// Rain that the forecast's members bring in a stretch of time: one in ten less than low, one in
/// ten more than high.
struct RainAheadView {
  Instant from{};
  Instant until{};
  double low_mm = 0.0;
  double high_mm = 0.0;
  double chance = 0.0;  ///< of 1 mm or more, 0..1
};

struct ForecastView {
  Instant received{};
  std::size_t members_sent = 1;
  std::size_t members = 0;          ///< in use; 0 until the first outlook
  std::size_t days = 0;             ///< that it tells whole, today among them
  std::string problem;              ///< why these are fewer than asked for; empty when all is well
  std::vector<std::string> unused;  ///< names in it that stand for none of our quantities
  std::vector<ForecastScoreView> scores;  ///< by lead day, 1 first
  /// Farm days from today on, of today what is still to come; empty until the first outlook.
  std::vector<RainAheadView> rain_days = {};
  std::optional<RainAheadView> rain_48h = {};  ///< where the forecast reaches so far
};

struct BoardSnapshot {
  std::string farm_id;
  std::string farm_name;
  std::string time_zone;
  Instant time{};  ///< when this was made
  std::uint64_t revision = 0;
  std::optional<ForecastView> forecast;
  std::vector<FieldView> fields;
  bool has_plan = false;      ///< fields with boundaries, so that there is a plan to draw
  bool takes_writes = false;  ///< there is a token for them
  std::vector<StationView> stations;
  std::vector<AlertView> alerts;
  /// That ended, the latest first; never changed, and null before the first.
  std::shared_ptr<const std::vector<AlertView>> past_alerts = {};
  ServiceView service;
};

using SnapshotPtr = std::shared_ptr<const BoardSnapshot>;

}  // namespace gley::daemon

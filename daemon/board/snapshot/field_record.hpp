#pragma once
#include <optional>
#include <string>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "model/outlook/spread.hpp"

/// A field through time: what was, what is likely to be, and how the seasons compare. Worked out
/// when a page asks for it.
namespace gley::daemon {

struct NamedItem {
  std::string id;
  std::string name;
};

/// One day of a field as it was, or today so far.
struct RecordedDay {
  std::string date;
  bool so_far = false;
  double rain_mm = 0.0;
  double irrigation_mm = 0.0;
  double et0_mm = 0.0;
  double et_mm = 0.0;  ///< evaporation and transpiration
  double runoff_mm = 0.0;
  double drainage_mm = 0.0;  ///< below the roots and by pipes
  double depletion_mm = 0.0;
  double topsoil_deficit_mm = 0.0;
  double surplus_mm = 0.0;
  double pond_mm = 0.0;
  bool drains_running = false;
  std::string wetness;
  std::vector<double> theta;          ///< by layer, m3/m3
  std::vector<std::string> verdicts;  ///< by machine
};

struct FieldRecord {
  std::vector<LayerView> layers;  ///< their water is that of the last day
  std::vector<NamedItem> machines;
  std::vector<RecordedDay> days;
};

struct ComingDay {
  std::string date;
  model::Spread rain_mm;
  model::Spread depletion_mm;
  model::Spread topsoil_deficit_mm;
  model::Spread surplus_mm;
  double chance_at_capacity = 0.0;
  double chance_drains_run = 0.0;
  std::vector<double> machine_chance;  ///< that it is carried
};

struct WindowsOf {
  NamedItem item;
  std::vector<WindowView> windows;
};

/// The coming days under a forecast younger than a day.
struct FieldAheadView {
  Instant made{};
  Instant forecast_received{};
  std::size_t members = 0;
  std::vector<NamedItem> machines;
  std::vector<ComingDay> days;  ///< today first
  std::vector<WindowsOf> machine_windows;
  std::vector<WindowsOf> material_windows;
};

/// What would make a machine's verdict better, each in words; empty where nothing would.
struct MachineChange {
  NamedItem machine;
  std::string verdict;
  std::string lower_pressure;
  std::string part_load;
  std::string no_remedy;                 ///< that neither would do
  std::string dry_days;                  ///< empty where it is carried, or not known
  std::optional<double> dry_day_et0_mm;  ///< reckoned with on a dry day, if any is known
};

/// What a field, and the machines on it, had of some days.
struct SeasonSums {
  int days = 0;
  double rain_mm = 0.0;
  double irrigation_mm = 0.0;
  double et_mm = 0.0;
  double runoff_mm = 0.0;
  double drainage_mm = 0.0;
  int days_at_capacity = 0;  ///< or wetter
  int days_waterlogged = 0;
  int days_short_of_water = 0;
  int days_drains_ran = 0;
  std::vector<int> days_carried;  ///< by machine
};

/// A harvest year: from 1 October, south of the equator from 1 April, for a year; named by the
/// year it ends in.
struct SeasonView {
  int harvest_year = 0;
  std::string from;  ///< first and last day on record
  std::string to;
  int days_missing = 0;  ///< of the season up to its end or today, before the record began
  SeasonSums whole;
  SeasonSums to_date;                ///< up to the day of the season that today is
  std::vector<double> rain_sum_mm;   ///< by day of the season; begins with the first on record
  std::vector<double> drain_sum_mm;  ///< likewise
  int first_day = 0;                 ///< of the season, that is on record; 0 is its first
};

struct SeasonsView {
  std::string begins;    ///< "1 October"
  std::string last_day;  ///< the date to whose day of the season to_date goes
  std::vector<NamedItem> machines;
  std::vector<SeasonView> seasons;  ///< latest first
};

}  // namespace gley::daemon

#pragma once
#include <algorithm>
#include <chrono>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/farm/stage_days.hpp"
#include "daemon/farm/word.hpp"
#include "model/ground/machine_stress.hpp"

namespace gley::daemon {

/// A texture class of config/soils.toml. Water contents m3/m3.
struct SoilRow {
  std::string name;
  double sand_pct = 0.0;  ///< over 60 um
  double silt_pct = 0.0;
  double clay_pct = 0.0;
  double organic_pct = 0.0;
  double wilting_point = 0.0;
  double field_capacity = 0.0;
  double saturation = 0.0;
  double available_water = 0.0;      ///< field capacity less wilting point
  double retention_b = 0.0;          ///< exponent of suction = A theta^-b
  char hydrologic_group_free = 'B';  ///< A to D, where nothing slow lies below
  char hydrologic_group_slow = 'D';
  double rew_mm = 0.0;
  std::string source;
};

enum class CropKind { grass, annual, bare, cover };
template <>
inline constexpr auto words_for<CropKind> = std::to_array<std::string_view>({"grass", "annual",
                                                                             "bare", "cover"});

/// A row of config/crops.toml. Kcb for RHmin 45 % and wind 2 m/s, before Eq. 70.
struct CropRow {
  std::string name;
  CropKind kind = CropKind::annual;
  double kcb_ini = 0.0;
  double kcb_mid = 0.0;
  double kcb_end = 0.0;
  double height_m = 0.0;
  double root_depth_mm = 0.0;      ///< deepest
  double root_depth_min_mm = 0.0;  ///< at sowing
  double depletion_fraction = 0.0;
  std::optional<double> cover;                        ///< closed swards and bare ground
  std::optional<StageDays> stages;                    ///< annual and cover crops
  std::optional<StageDayDegrees> stages_day_degrees;  ///< in place of `stages`, where a row has it
  std::optional<std::chrono::month_day> sown;
  std::optional<std::chrono::month_day> harvested;
  double residue_cover = 0.0;       ///< share of the ground under dead residue
  std::optional<double> uncut_kcb;  ///< grown sward of a field that is cut; default: kcb_mid
  std::optional<double> cut_kcb;    ///< right after a cut; of swards
  std::optional<double> cut_height_m;
  std::optional<double> cut_cover;
  std::optional<int> recovery_days;
  std::string runoff_cover;  ///< name of a CurveNumberRow
  std::string source;
};

/// Curve numbers of a ground cover for hydrologic groups A to D, initial abstraction 0.2 S.
struct CurveNumberRow {
  std::string name;
  double a = 0.0;
  double b = 0.0;
  double c = 0.0;
  double d = 0.0;
  std::string source;

  [[nodiscard]] double of_group(char group) const;
};

/// A way to irrigate of config/irrigation.toml.
struct IrrigationRow {
  std::string name;
  double wetted_fraction = 1.0;
  bool under_crop = false;  ///< wets ground that the crop shades: drip lines
  std::string source;
};

/// A typical machine of config/machines.toml.
struct MachineRow {
  std::string name;
  double wheel_load_t = 0.0;
  double tyre_pressure_bar = 0.0;
  double mass_t = 0.0;
  std::optional<double> empty_wheel_load_t;
  std::optional<double> empty_mass_t;
  model::Tread tread = model::Tread::wheels;
  bool cultivates = false;
  std::string source;
};

template <class Row>
[[nodiscard]] std::vector<std::string> names_of(const std::vector<Row>& rows) {
  std::vector<std::string> names;
  names.reserve(rows.size());
  for (const Row& row : rows) names.push_back(row.name);
  return names;
}

/// The row of a name; null if there is none.
template <class Row>
[[nodiscard]] const Row* find_row(const std::vector<Row>& rows, std::string_view name) {
  const auto row = std::find_if(rows.begin(), rows.end(),
                                [name](const Row& candidate) { return candidate.name == name; });
  return row == rows.end() ? nullptr : &*row;
}

struct ReferenceTables {
  std::vector<SoilRow> soils;
  std::vector<CropRow> crops;
  std::vector<CurveNumberRow> runoff_covers;
  std::vector<IrrigationRow> irrigation_methods;
  std::vector<MachineRow> machines;

  [[nodiscard]] const SoilRow* soil(std::string_view name) const { return find_row(soils, name); }
  [[nodiscard]] const CropRow* crop(std::string_view name) const { return find_row(crops, name); }
  [[nodiscard]] const CurveNumberRow* runoff_cover(std::string_view name) const {
    return find_row(runoff_covers, name);
  }
};

/// The tables the daemon was built with, read once. They are ours, so a fault in them is our
/// mistake: std::logic_error names table, row and key.
[[nodiscard]] const ReferenceTables& reference_tables();

}  // namespace gley::daemon

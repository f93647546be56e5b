#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "daemon/farm/file_place.hpp"
#include "daemon/farm/stage_days.hpp"
#include "model/crop/calendar_day.hpp"

/// What the configuration says of a field's crops.
namespace gley::daemon {

/// A crop given by its numbers, the same all year.
struct CropByNumbers {
  double kcb = 0.0;
  double cover = 0.0;
  double height_m = 0.0;
  double root_depth_mm = 0.0;
  double depletion_fraction = 0.5;
};

/// What the owner knows better of a crop than its row in crops.toml; absent is the row's.
struct CropOwn {
  std::optional<double> kcb_ini;
  std::optional<double> kcb_mid;
  std::optional<double> kcb_end;
  std::optional<double> height_m;
  std::optional<double> root_depth_mm;
  std::optional<double> root_depth_min_mm;
  std::optional<double> depletion_fraction;
  std::optional<double> cover;
  std::optional<double> residue_cover;
  std::optional<std::string> runoff_cover;
  std::optional<StageDays> stages;
  std::optional<StageDayDegrees> stages_day_degrees;
  std::vector<model::CalendarDay>
      stage_dates;                             ///< first days of development, mid and late; or none
  std::optional<std::chrono::month_day> sown;  ///< every year
  std::optional<std::chrono::month_day> harvested;
  std::vector<model::CalendarDay> cuts;
  std::optional<double> cut_kcb;
  std::optional<double> cut_height_m;
  std::optional<double> cut_cover;
  std::optional<int> recovery_days;
};

/// One sowing of a rotation, or of the one crop a field carries every year.
struct CropSowing {
  std::string crop;                                      ///< a name of crops.toml
  std::optional<std::chrono::year_month_day> sown;       ///< absent: every year; then the only one
  std::optional<std::chrono::year_month_day> harvested;  ///< first day without it
  CropOwn own;
  FilePlace place;
};

/// By name, by numbers, or sowings in order of their dates, none before the last one's harvest.
using CropConfig = std::variant<std::string, CropByNumbers, std::vector<CropSowing>>;

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <optional>

#include "daemon/farm/crop_config.hpp"
#include "daemon/farm/reference_tables.hpp"

namespace gley::daemon {

/// A row of crops.toml with what the owner knows better of it.
[[nodiscard]] CropRow row_with(const CropRow& row, const CropOwn& own);

/// The row of a sowing's crop, which is known, with what the owner knows better.
[[nodiscard]] CropRow row_of(const CropSowing& sowing);

/// The usual harvest after a day of sowing; none for what stands all year.
[[nodiscard]] std::optional<std::chrono::year_month_day> usual_harvest(
    const CropRow& row, std::chrono::year_month_day sown);

/// Days from sowing to harvest in a year of usual dates, else by the stages; none for what stands
/// all year.
[[nodiscard]] std::optional<std::chrono::days> usual_season(const CropRow& row);

/// When a crop stands.
struct CropSpan {
  std::chrono::sys_days sown;
  std::chrono::sys_days harvested;
};

/// First days of the stages that were given by date, in the season of a sowing: a day without a
/// year is the first such day after sowing.
[[nodiscard]] std::vector<std::chrono::sys_days> stage_starts(
    const std::vector<model::CalendarDay>& days, std::chrono::sys_days sown);

/// Lengths of the stages from sowing to harvest: the owner's, or the row's stretched to the span,
/// for a table's lengths are of another climate's season.
[[nodiscard]] StageDays stages_in(const CropSpan& span, const CropRow& row, const CropOwn& own);

}  // namespace gley::daemon

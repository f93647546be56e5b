#pragma once
#include <chrono>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <tl/expected.hpp>

#include "daemon/board/documents/days_query.hpp"
#include "daemon/board/documents/windows_calendar.hpp"
#include "daemon/board/snapshot/explanation.hpp"
#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/board/snapshot/plan.hpp"
#include "daemon/board/snapshot/workings.hpp"

namespace gley::daemon {

/// A field's days as replay writes them, or nothing for a field that is not kept.
using DaysSource =
    std::function<std::optional<std::string>(const std::string& field_id, const DayRange& range)>;

/// A field's day explained. The error is a sentence for whoever asked.
using ExplanationSource = std::function<tl::expected<Explanation, std::string>(
    const std::string& field_id, std::chrono::sys_days date)>;

/// How the daemon's own work goes, at the moment of asking.
using WorkingsSource = std::function<Workings()>;

/// What pages ask for beyond the board: worked out when asked. One left empty answers as a field
/// that is not kept.
struct PageSources {
  DaysSource days;
  ExplanationSource explain = {};
  std::function<FieldRecord(const std::string& field_id, const DayRange& range)> record = {};
  /// Nothing without a forecast younger than a day.
  std::function<std::optional<FieldAheadView>(const std::string& field_id)> ahead = {};
  std::function<SeasonsView(const std::string& field_id)> seasons = {};
  /// Null where no field has a boundary.
  std::function<std::shared_ptr<const PlanView>()> plan = {};
  std::function<std::vector<MachineChange>(const std::string& field_id)> changes = {};
  /// None without a forecast younger than a day.
  std::function<WorkWindows()> windows = {};
  /// The fields' outlines, as GeoJSON.
  std::function<std::string()> boundaries = {};
  WorkingsSource workings = {};
};

}  // namespace gley::daemon

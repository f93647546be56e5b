#pragma once
#include <vector>

#include "daemon/alerts/field_moment.hpp"
#include "daemon/engine/judge/recent_days.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"
#include "daemon/engine/outlook/working_hours.hpp"
#include "daemon/store/told_store.hpp"

namespace gley::daemon {

/// What the fields' moments are made of.
struct MomentSources {
  const FarmState& state;
  const FarmOutlook* outlook = nullptr;  ///< null without a fresh forecast
  const RecentDays& recent;
  const WorkingHours& hours;
  const std::vector<KeptDressing>& dressings;
};

/// Every field that has weather on record, as its alerts see it.
[[nodiscard]] std::vector<FieldMoment> field_moments(const MomentSources& sources, Instant now);

}  // namespace gley::daemon

#pragma once
#include "daemon/board/documents/windows_calendar.hpp"
#include "daemon/engine/outlook/working_hours.hpp"

namespace gley::daemon {

/// The windows of every machine on every field, as far as they hold working hours and are not over.
/// outlook: null without a fresh forecast; then there are none.
[[nodiscard]] WorkWindows work_windows(const FarmConfig& farm, const FarmOutlook* outlook,
                                       Instant now);

}  // namespace gley::daemon

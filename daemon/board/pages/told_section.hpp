#pragma once
#include <string>

#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/local_time.hpp"

namespace gley::daemon {

/// What people told of a field, latest first, and beside each report what the record of days
/// says of its ground. Nothing where nothing was told.
[[nodiscard]] Html told_section(const FieldView& field, Instant now, const FarmClock& clock);

/// "Drill: keep off since Mon 9 Nov, 3 days before"
[[nodiscard]] std::string judged_text(const ReportView& report, const FieldView& field);

}  // namespace gley::daemon

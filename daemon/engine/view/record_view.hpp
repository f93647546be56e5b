#pragma once
#include "daemon/board/documents/days_query.hpp"
#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"

namespace gley::daemon {

/// A field's days of the range, today so far among them where the range reaches it.
[[nodiscard]] FieldRecord record_of(const FarmState& state, std::size_t field,
                                    const DayRange& range);

/// A field's coming days; empty where the outlook has none of it.
[[nodiscard]] std::optional<FieldAheadView> ahead_of(const FarmState& state, std::size_t field,
                                                     const FarmOutlook& outlook);

}  // namespace gley::daemon

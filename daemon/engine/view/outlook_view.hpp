#pragma once
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"

namespace gley::daemon {

[[nodiscard]] WindowView window_view(const TimeWindow& window);

/// Adds what the outlook says of one field to its machines and materials: until when a machine is
/// carried that is carried now, and when the next window opens. What lasts beyond the forecast has
/// no end.
void show_outlook(FieldView& field, const FarmOutlook& outlook, std::size_t index, Instant now);

}  // namespace gley::daemon

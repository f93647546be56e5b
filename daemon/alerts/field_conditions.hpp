#pragma once
#include <set>
#include <string>

#include "daemon/alerts/alert.hpp"
#include "model/water/field_day.hpp"

namespace gley::daemon {

/// Whether a field's day is one of the event's. A field whose start is only assumed tells nothing
/// of field capacity. Of rain expected it tells only whether there is something to wait for: the
/// field is not at capacity yet.
[[nodiscard]] bool holds_for(AlertEvent event, const model::FieldDay& day);

}  // namespace gley::daemon

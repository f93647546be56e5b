#pragma once
#include "daemon/engine/judge/judgement.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"

namespace gley::daemon {

/// A field's day so far as the screens judge it: with the silence of its stations, the rain around
/// and the days ahead. Only for a field that has a day so far.
/// outlook: null without a forecast under 24 h old.
[[nodiscard]] JudgedDay judged_with_outlook(const FarmState& state, std::size_t field, Instant now,
                                            const FarmOutlook* outlook);

}  // namespace gley::daemon

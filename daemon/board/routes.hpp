#pragma once
#include "daemon/board/days_query.hpp"
#include "daemon/board/http_message.hpp"
#include "daemon/board/snapshot.hpp"

namespace gley::daemon {

/// The answer to a request, from a state that does not change meanwhile. No lock and no I/O, but
/// what `days` and `explain` do; without `explain` no day is explained.
[[nodiscard]] Response respond(const Request& request, const BoardSnapshot& board,
                               const DaysSource& days, const ExplanationSource& explain = {});

}  // namespace gley::daemon

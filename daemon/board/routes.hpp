#pragma once
#include "daemon/board/http/http_message.hpp"
#include "daemon/board/pages/page_sources.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// The answer to a request, from a state that does not change meanwhile. No lock and no I/O, but
/// what the sources do.
[[nodiscard]] Response respond(const Request& request, const BoardSnapshot& board,
                               const PageSources& sources);

}  // namespace gley::daemon

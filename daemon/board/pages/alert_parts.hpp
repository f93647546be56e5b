#pragma once
#include "daemon/board/pages/html.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/local_time.hpp"

/// An alert as pages show it, and the form by which a person says that it was seen.
namespace gley::daemon {

/// One item of a list of alerts. can_be_seen: with a button for who has seen it, where nobody has.
[[nodiscard]] Html alert_item(const AlertView& alert, Instant now, const FarmClock& clock,
                              bool can_be_seen);

/// What asks for a name, and once for the token; shown by seen.js. Empty where the daemon takes no
/// writes.
[[nodiscard]] Html seen_form(const BoardSnapshot& board);

}  // namespace gley::daemon

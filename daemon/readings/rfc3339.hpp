#pragma once
#include <optional>
#include <string_view>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// The instant an RFC 3339 date-time names, "2026-03-01T09:30:00Z" or with an offset; digits beyond
/// milliseconds are cut off. Empty for all else: a time without an offset could mean any zone.
[[nodiscard]] std::optional<Instant> parse_rfc3339(std::string_view text);

/// The instant so many seconds after 1970-01-01T00:00Z, to the nearest millisecond; empty beyond
/// the years 1 to 9999.
[[nodiscard]] std::optional<Instant> from_unix_seconds(double seconds);

}  // namespace gley::daemon

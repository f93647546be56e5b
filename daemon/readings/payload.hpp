#pragma once
#include <cstddef>
#include <string_view>

#include "daemon/readings/decoded_message.hpp"
#include "daemon/readings/topic_map.hpp"

namespace gley::daemon {

/// Larger payloads are refused unread: no weather station has that much to say.
inline constexpr std::size_t largest_payload_bytes = 262144;

/// All readings a message holds, for every mapping of its topic: a SenML pack (RFC 8428, JSON), a
/// bare number, or JSON with pointers (RFC 6901). A time number is seconds since 1970, over 1e11
/// milliseconds; a time text is RFC 3339. A counter's value is the raw count times its step;
/// differences are taken later, when all counts are known.
/// timeless_is_unknown: a reading without a time of its own may have waited in the broker.
/// Never throws for any payload. Any thread.
[[nodiscard]] DecodedMessage decode(const TopicMap& map, std::string_view topic,
                                    std::string_view payload, Instant arrival,
                                    bool timeless_is_unknown);

}  // namespace gley::daemon

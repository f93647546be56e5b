#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// Whether a stored reading counts. Only `used` ones do; the others are kept aside and shown.
enum class ReadingStatus : std::uint8_t {
  used = 0,
  too_old = 1,
  in_the_future = 2,
  time_unknown = 3,
};

struct DecodedReading {
  Reading reading;
  ReadingStatus status = ReadingStatus::used;
};

/// A record of a message that was not used as a reading, with words for a person.
struct RejectedRecord {
  Rejection kind = Rejection::malformed;
  std::string station;  ///< empty if the topic has no mapping
  std::string detail;   ///< one short line of printable ASCII
};

/// What one message held. A reading kept aside for its time stands in `readings`, and its reason in
/// `rejections`.
struct DecodedMessage {
  std::vector<DecodedReading> readings;
  std::vector<RejectedRecord> rejections;
};

}  // namespace gley::daemon

#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <tl/expected.hpp>
#include <vector>

#include "daemon/readings/reading.hpp"

namespace gley::daemon {

/// One record of a SenML pack with the base fields applied (RFC 8428 Section 4.6).
struct SenmlRecord {
  std::string name;             ///< base name and name
  std::string local_name;       ///< the name alone, as the record has it
  std::string unit;             ///< empty if neither record nor base gives one
  std::optional<double> value;  ///< empty: a text, a truth value, data, or a sum only
  /// Seconds since 1970, or since now if under 2^28; empty if neither record nor base gives one.
  std::optional<double> time;
};

/// The records of a pack; the error says in a few words what is wrong with it.
/// Sources: RFC 8428 Sections 4.1 to 4.5; a field that ends in '_' must be understood, and none is
/// (Section 4.4); versions to 10 (Section 4.4).
[[nodiscard]] tl::expected<std::vector<SenmlRecord>, std::string> read_senml(
    const nlohmann::json& pack);

/// The time of a record, resolved by the time of arrival (RFC 8428 Section 4.5.3); the source says
/// `arrival` where that was needed. The error is an unreadable time.
struct SenmlTime {
  Instant time{};
  TimeSource source = TimeSource::payload;
};
[[nodiscard]] std::optional<SenmlTime> senml_time(const SenmlRecord& record, Instant arrival);

}  // namespace gley::daemon

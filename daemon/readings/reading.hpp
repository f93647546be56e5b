#pragma once
#include <array>
#include <chrono>
#include <cstdint>
#include <string>

#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// Milliseconds of UTC: fine enough for any weather station, coarse enough to compare exactly.
using Instant = std::chrono::sys_time<std::chrono::milliseconds>;

/// How the time of a reading is known.
enum class TimeSource : std::uint8_t {
  payload = 0,  ///< the message said it
  arrival = 1,  ///< the message said none and arrived live
  unknown = 2,  ///< the message said none and waited in the broker: kept, not used
};

/// One measured value, in the model's unit for its quantity: rain and irrigation mm (rate: mm/h),
/// temperature and dew point degC, humidity %, wind m/s, sunshine h, radiation W/m2 (interval:
/// MJ/m2).
struct Reading {
  std::string station;
  Quantity quantity = Quantity::rain;
  ReadingForm form = ReadingForm::instant;
  std::string source;  ///< topic, and the SenML name if any: what makes the reading unique
  Instant time{};
  TimeSource time_source = TimeSource::payload;
  double value = 0.0;

  friend bool operator==(const Reading&, const Reading&) = default;
};

/// Why a message, or a record in it, was not taken as a reading. Also the label of its metric.
enum class Rejection : std::uint8_t {
  not_a_number,   ///< the payload, or what its pointer names, is no finite number
  malformed,      ///< not JSON, or not the form its mapping promises
  unmapped,       ///< no mapping for the topic, or no SenML record of the mapped name
  wrong_unit,     ///< a unit that cannot be converted to the mapped one
  out_of_range,   ///< beyond what the quantity can physically be
  too_old,        ///< older than readings.oldest_days: kept aside
  in_the_future,  ///< more than ten minutes ahead: kept aside
  bad_time,       ///< a time stamp that cannot be read
  too_large,      ///< payload over the size limit
};

inline constexpr std::array all_rejections{
    Rejection::not_a_number,  Rejection::malformed,    Rejection::unmapped,
    Rejection::wrong_unit,    Rejection::out_of_range, Rejection::too_old,
    Rejection::in_the_future, Rejection::bad_time,     Rejection::too_large};

[[nodiscard]] std::string_view to_word(Rejection rejection);

}  // namespace gley::daemon

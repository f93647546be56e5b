#pragma once
#include <cstdint>
#include <string>

namespace gley::model {

/// What a reader must know about a day's numbers before trusting them. A day carries any number.
enum class DayFlag : std::uint32_t {
  rain_missing = 1u << 0,           ///< no rain known; the balance took 0 mm
  temperature_estimated = 1u << 1,  ///< extremes carried over from the last known day
  humidity_estimated = 1u << 2,   ///< vapour pressure from Tmin (FAO-56 Eq. 48) or a learned offset
  radiation_estimated = 1u << 3,  ///< radiation from Tmin and Tmax (FAO-56 Eq. 50)
  radiation_doubtful = 1u << 4,   ///< measured, and beyond what the sky allows, or stuck
  wind_estimated = 1u << 5,       ///< wind taken as 2 m/s
  et0_given = 1u << 6,            ///< ET0 came with the weather and was not computed
  et0_negative = 1u << 7,         ///< Eq. 6 gave less than 0; the balance took 0 mm
  et0_missing = 1u << 8,          ///< ET0 could not be computed; the balance took 0 mm
  temperature_missing = 1u << 9,  ///< no temperatures: snow and frost cannot be told
  day_missing = 1u << 10,         ///< no weather at all for this date
  start_assumed = 1u << 11,       ///< the field's water still rests on an assumed start
  frozen = 1u << 12,
  snow = 1u << 13,
  rain_partial = 1u << 14,  ///< the rain gauge was heard for only part of the day
  // A quality check doubts what a station of the field measured: it was not used.
  rain_doubtful = 1u << 20,
  temperature_doubtful = 1u << 21,
  humidity_doubtful = 1u << 22,
  wind_doubtful = 1u << 23,
  // Not from the first station of trust but from one after it.
  rain_borrowed = 1u << 24,
  temperature_borrowed = 1u << 25,
  humidity_borrowed = 1u << 26,
  wind_borrowed = 1u << 27,
  radiation_borrowed = 1u << 28,
};

/// A set of DayFlag.
class DayFlags {
 public:
  constexpr DayFlags() = default;
  constexpr void set(DayFlag flag) { bits_ |= static_cast<std::uint32_t>(flag); }
  constexpr void set(DayFlag flag, bool on) {
    if (on) set(flag);
  }
  [[nodiscard]] constexpr bool has(DayFlag flag) const {
    return (bits_ & static_cast<std::uint32_t>(flag)) != 0;
  }
  constexpr DayFlags& operator|=(DayFlags other) {
    bits_ |= other.bits_;
    return *this;
  }
  friend constexpr bool operator==(DayFlags, DayFlags) = default;

 private:
  std::uint32_t bits_ = 0;
};

/// The flags as the words of the day files, joined by ';', in a fixed order.
[[nodiscard]] std::string to_words(DayFlags flags);

}  // namespace gley::model

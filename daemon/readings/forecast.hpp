#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <vector>

#include "daemon/readings/decoded_message.hpp"
#include "daemon/readings/farm_day.hpp"

namespace gley::daemon {

/// One quantity of a forecast, in the model's unit for it (reading.hpp).
struct ForecastSeries {
  Quantity quantity = Quantity::rain;
  ReadingForm form = ReadingForm::interval;  ///< interval: the amount since the time before
  std::vector<Instant> times;                ///< rising, two at least
  /// By member, then by time; one member alone stands for all. Absent: the forecast has a gap.
  std::vector<std::vector<std::optional<double>>> members;

  [[nodiscard]] const std::vector<std::optional<double>>& of(std::size_t member) const {
    return members.size() == 1 ? members.front() : members[member];
  }
};

/// A forecast as it was sent. Always has rain.
struct Forecast {
  std::vector<ForecastSeries> series;  ///< each quantity once at most
  std::size_t members = 1;
  double wind_height_m = 10.0;      ///< above ground, that its wind is for
  std::vector<std::string> unused;  ///< names in it that stand for none of our quantities

  [[nodiscard]] const ForecastSeries* find(Quantity quantity) const;
};

/// What a forecast is read by.
struct ForecastTerms {
  std::map<std::string, std::string> names;  ///< of the forecast -> our quantity, beside our own
  double latitude = 0.0;                     ///< of the farm
  double longitude = 0.0;
  FarmCalendar calendar;
  double wind_height_m = 10.0;  ///< above ground, that its wind is for
};

using DecodedForecast = tl::expected<Forecast, RejectedRecord>;

/// Larger forecasts are refused unread: 100 members by the hour for 10 days stay under it.
inline constexpr std::size_t largest_forecast_bytes = std::size_t{8} * 1024 * 1024;

/// Farther off it is some other place's forecast. Our choice.
inline constexpr double farthest_forecast_km = 50.0;

/// A forecast from a CoverageJSON PointSeries (OGC 21-069r2), with or without an axis `member`, or
/// from a SenML pack with times to come. The error names what is wrong and what to do; a forecast
/// is taken whole or not at all. Never throws for any payload. Any thread.
[[nodiscard]] DecodedForecast decode_forecast(const ForecastTerms& terms, std::string_view payload,
                                              Instant arrival);

}  // namespace gley::daemon

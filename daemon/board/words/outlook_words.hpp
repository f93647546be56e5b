#pragma once
#include <string>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/words/local_time.hpp"

/// What the outlook says, as a person on the farm reads it.
namespace gley::daemon {

/// "likely, 7 in 10".
[[nodiscard]] std::string chance_text(double probability);

/// "7 in 10", "under 1 in 10", "over 9 in 10".
[[nodiscard]] std::string odds_text(double probability);

/// "7 in 10", or ">9 in 10": for a narrow column.
[[nodiscard]] std::string tenths_text(double probability);

/// As short as it stays clear: "15:00" today, "Sat" for the start of a day within the week, "Sat
/// 15:00", and "5 Dec" later on.
[[nodiscard]] std::string short_moment(Instant instant, const FarmClock& clock, Instant now);

/// "opens Thu 26 Nov, likely, 7 in 10, to Sat 28 Nov 15:00"; a day's start is named by the day
/// alone.
[[nodiscard]] std::string window_text(const WindowView& window, const FarmClock& clock,
                                      Instant now);

/// What beside its age is worth saying of the forecast: how far it goes, and how often the last
/// ones were right about rain the day after.
[[nodiscard]] std::string forecast_text(const ForecastView& forecast);

}  // namespace gley::daemon

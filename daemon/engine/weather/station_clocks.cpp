#include "daemon/engine/weather/station_clocks.hpp"

#include <algorithm>

namespace gley::daemon {

namespace {

using namespace std::chrono_literals;

// All our choice. A time zone or summer time is off by half an hour at least.
constexpr auto least_off = 29min;
constexpr auto most_apart = 10min;
constexpr auto least_span = 2h;
constexpr std::size_t least_arrivals = 6;
constexpr std::size_t most_arrivals = 300;
constexpr auto looked_back = 24h;

}  // namespace

void StationClocks::note(const StoredReading& row) {
  if (row.reading.time_source != TimeSource::payload) return;
  std::deque<Arrival>& own = arrivals_[row.reading.station];
  const auto lag = row.received - row.reading.time;
  if (!own.empty() && own.back().received == row.received) {
    own.back().lag = std::min(own.back().lag, lag);
    return;
  }
  own.push_back({row.received, lag});
  if (own.size() > most_arrivals) own.pop_front();
}

std::optional<std::chrono::minutes> StationClocks::behind(const std::string& station,
                                                          Instant now) const {
  const auto own = arrivals_.find(station);
  if (own == arrivals_.end()) return {};
  std::vector<Arrival> lately;
  for (const Arrival& arrival : own->second)
    if (arrival.received > now - looked_back && arrival.received <= now) lately.push_back(arrival);
  if (lately.size() < least_arrivals) return {};
  if (lately.back().received - lately.front().received < least_span) return {};
  const auto [least, most] =
      std::minmax_element(lately.begin(), lately.end(),
                          [](const Arrival& a, const Arrival& b) { return a.lag < b.lag; });
  if (most->lag - least->lag > most_apart) return {};
  const auto off = std::chrono::round<std::chrono::minutes>(least->lag);
  if (std::chrono::abs(off) < least_off) return {};
  return off;
}

}  // namespace gley::daemon

#include "daemon/readings/quality_series.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <tuple>

#include "daemon/readings/quality_limits.hpp"

namespace gley::daemon {

namespace {

/// Indices of the readings of one source, in order of time.
using Series = std::vector<std::size_t>;
/// Dew points come last: they are held against air that has been looked at.
using SourceOfReading = std::tuple<bool, std::string, Quantity>;

std::optional<double> spike_limit(Quantity quantity) {
  switch (quantity) {
    case Quantity::temperature:
    case Quantity::dew_point:
      return limits::temperature_spike_c;
    case Quantity::humidity:
      return limits::humidity_spike_pct;
    case Quantity::wind:
      return limits::wind_spike_m_s;
    default:
      return {};  // clouds move radiation by any amount
  }
}

/// A value that may well stand still.
bool may_rest(const Reading& reading) {
  switch (reading.quantity) {
    case Quantity::humidity:
      return reading.value >= limits::fog_pct;
    case Quantity::wind:
    case Quantity::radiation:
      return reading.value <= 0.0;
    default:
      return false;
  }
}

/// Looks through one day's readings, source by source.
class DayCheck {
 public:
  DayCheck(const std::vector<Reading>& readings, const AcceptedQuantities& accepted)
      : readings_(readings), accepted_(accepted), doubtful_(readings.size(), false) {
    for (std::size_t i = 0; i < readings.size(); ++i)
      if (readings[i].form == ReadingForm::instant) series_[key_of(readings[i])].push_back(i);
  }

  void look() {
    for (const auto& [source, series] : series_) check(series);
  }
  [[nodiscard]] const std::vector<bool>& doubtful() const { return doubtful_; }
  [[nodiscard]] std::vector<Doubt> doubts() && { return std::move(doubts_); }

 private:
  static SourceOfReading key_of(const Reading& reading) {
    return {reading.quantity == Quantity::dew_point, reading.source, reading.quantity};
  }

  void check(const Series& series) {
    const Reading& first = readings_[series.front()];
    if (is_stuck(series)) {
      doubt(series, DoubtKind::stuck);
      return;
    }
    doubt(spikes(series), DoubtKind::spike);
    if (first.quantity == Quantity::dew_point)
      doubt(above_the_air(series), DoubtKind::above_air_temperature);
  }

  void doubt(const Series& which, DoubtKind kind) {
    if (which.empty()) return;
    const Reading& first = readings_[which.front()];
    const bool accepted = accepted_.count(first.quantity) > 0;
    doubts_.push_back({.quantity = first.quantity,
                       .kind = kind,
                       .source = first.source,
                       .readings = static_cast<int>(which.size()),
                       .accepted = accepted});
    if (accepted) return;
    for (const std::size_t i : which) doubtful_[i] = true;
  }

  [[nodiscard]] bool is_stuck(const Series& series) const {
    if (series.size() < limits::stuck_readings) return false;
    const Reading& first = readings_[series.front()];
    if (may_rest(first)) return false;
    if (readings_[series.back()].time - first.time < limits::stuck_span) return false;
    return std::all_of(series.begin(), series.end(),
                       [&](std::size_t i) { return readings_[i].value == first.value; });
  }

  [[nodiscard]] double value(std::size_t i) const { return readings_[i].value; }
  [[nodiscard]] bool close_in_time(std::size_t before, std::size_t after) const {
    return readings_[after].time - readings_[before].time <= limits::spike_gap;
  }

  [[nodiscard]] Series spikes(const Series& series) const {
    const auto limit = spike_limit(readings_[series.front()].quantity);
    Series out;
    if (!limit) return out;
    for (std::size_t at = 1; at < series.size();) {
      const std::size_t back = returns_at(series, at, *limit);
      for (std::size_t i = at; i < back; ++i) out.push_back(series[i]);
      at = std::max(at + 1, back);
    }
    return out;
  }

  /// The place in the series from which the value is back where it was before `at`; `at` itself if
  /// it did not leave, or stayed away.
  [[nodiscard]] std::size_t returns_at(const Series& series, std::size_t at, double limit) const {
    const std::size_t before = series[at - 1];
    const double way = value(series[at]) - value(before);
    if (std::fabs(way) <= limit || !close_in_time(before, series[at])) return at;
    for (std::size_t next = at + 1; next < series.size(); ++next) {
      const auto away = readings_[series[next]].time - readings_[series[at]].time;
      if (!close_in_time(series[next - 1], series[next]) || away > limits::longest_spike) return at;
      const double left = (value(series[next]) - value(before)) * (way > 0.0 ? 1.0 : -1.0);
      if (left <= limit / 2.0) return next;
      if (left <= limit) return at;  // neither there nor back: weather
    }
    return series.size();  // the last of the day so far: doubted until another one agrees
  }

  [[nodiscard]] Series above_the_air(const Series& series) const {
    Series out;
    for (const std::size_t i : series) {
      const auto air = air_at(readings_[i].time);
      if (air && value(i) > *air + limits::dew_point_over_air_c) out.push_back(i);
    }
    return out;
  }

  /// The greatest air temperature read about a time; empty if none was.
  [[nodiscard]] std::optional<double> air_at(Instant time) const {
    std::optional<double> greatest;
    const auto first = std::lower_bound(
        readings_.begin(), readings_.end(), time - limits::same_time,
        [](const Reading& reading, Instant moment) { return reading.time < moment; });
    for (auto i = static_cast<std::size_t>(first - readings_.begin()); i < readings_.size(); ++i) {
      const Reading& reading = readings_[i];
      if (reading.time > time + limits::same_time) break;
      if (reading.quantity == Quantity::temperature && !doubtful_[i])
        greatest = std::max(greatest.value_or(reading.value), reading.value);
    }
    return greatest;
  }

  const std::vector<Reading>& readings_;
  const AcceptedQuantities& accepted_;
  std::map<SourceOfReading, Series> series_;
  std::vector<bool> doubtful_;
  std::vector<Doubt> doubts_;
};

}  // namespace

std::vector<Doubt> take_out_doubtful(std::vector<Reading>& of_day,
                                     const AcceptedQuantities& accepted) {
  DayCheck check(of_day, accepted);
  check.look();
  std::size_t kept = 0;
  for (std::size_t i = 0; i < of_day.size(); ++i) {
    if (check.doubtful()[i]) continue;
    if (kept != i) of_day[kept] = std::move(of_day[i]);
    ++kept;
  }
  of_day.resize(kept);
  return std::move(check).doubts();
}

}  // namespace gley::daemon

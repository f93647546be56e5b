#include "daemon/readings/counter_steps.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/readings/hours.hpp"
#include "daemon/readings/quality_limits.hpp"

namespace gley::daemon {

namespace {

double most_in(Quantity quantity, std::chrono::milliseconds time) {
  const double h = Hours(time).count();
  switch (quantity) {
    case Quantity::sunshine:
      return h + limits::sunshine_over_time_h;
    case Quantity::radiation:
      return limits::most_radiation_of_an_hour_mj_m2 * (h + limits::sunshine_over_time_h);
    default:
      return std::max(limits::least_plausible_rise_mm,
                      limits::most_rain_of_an_hour_mm * std::sqrt(h));
  }
}

/// What a counter that rolls over there rose by, if it may have rolled over.
std::optional<double> rolled(const Reading& from, const Reading& to, double at) {
  const double days = std::chrono::duration<double, std::ratio<86400>>(to.time - from.time).count();
  const double most = to.quantity == Quantity::rain ? limits::least_plausible_rise_mm * (1.0 + days)
                                                    : most_in(to.quantity, to.time - from.time);
  const double rise = at - from.value + to.value;
  const bool may_have = to.value < from.value && from.value <= at && rise <= most;
  return may_have ? std::optional(rise) : std::nullopt;
}

/// How counts of one source follow each other.
class Steps {
 public:
  explicit Steps(const std::optional<double>& rolls_over_at) : rolls_over_at_(rolls_over_at) {}

  [[nodiscard]] double risen(const Reading& from, const Reading& to) const {
    if (to.value >= from.value) return to.value - from.value;
    const auto over = rolls_over_at_ ? rolled(from, to, *rolls_over_at_) : std::nullopt;
    return over.value_or(to.value);
  }

  [[nodiscard]] bool can_be(const Reading& from, const Reading& to) const {
    return risen(from, to) <= most_in(to.quantity, to.time - from.time);
  }

  /// Whether `count` stands out between two that follow each other.
  [[nodiscard]] bool is_stray(const Reading& last, const Reading& count,
                              const Reading& next) const {
    const bool goes_on = next.value >= last.value && can_be(last, next);
    if (!goes_on) return false;
    if (count.value >= last.value) return !can_be(last, count);
    // A restart that then rose to just over where it was: more likely it never restarted.
    return risen(count, next) > limits::least_plausible_rise_mm;
  }

 private:
  std::optional<double> rolls_over_at_;
};

}  // namespace

Counted count_up(const std::vector<const Reading*>& counts, const Reading* before,
                 const CounterRules& rules) {
  const Steps steps(rules.rolls_over_at);
  Counted out;
  const Reading* last = before;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const Reading& count = *counts[i];
    const Reading* next = i + 1 < counts.size() ? counts[i + 1] : nullptr;
    if (last == nullptr) {
      last = &count;
      continue;
    }
    if (!rules.everything_counts && next != nullptr && steps.is_stray(*last, count, *next)) {
      ++out.strays;
      continue;
    }
    const bool counts_it = rules.everything_counts || steps.can_be(*last, count);
    out.amount = out.amount.value_or(0.0) + (counts_it ? steps.risen(*last, count) : 0.0);
    out.jumps += counts_it ? 0 : 1;
    last = &count;
  }
  return out;
}

}  // namespace gley::daemon

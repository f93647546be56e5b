#include "daemon/readings/counter_steps.hpp"

#include <algorithm>
#include <cmath>

#include "daemon/readings/quality_limits.hpp"

namespace gley::daemon {

namespace {

double risen(const Reading& from, const Reading& to) {
  return to.value >= from.value ? to.value - from.value : to.value;
}

double most_in(Quantity quantity, std::chrono::milliseconds time) {
  const double h = std::chrono::duration<double, std::ratio<3600>>(time).count();
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

bool can_be(const Reading& from, const Reading& to) {
  return risen(from, to) <= most_in(to.quantity, to.time - from.time);
}

/// Whether `count` stands out between two that follow each other.
bool is_stray(const Reading& last, const Reading& count, const Reading& next) {
  const bool goes_on = next.value >= last.value && can_be(last, next);
  if (!goes_on) return false;
  if (count.value >= last.value) return !can_be(last, count);
  // A restart that then rose to just over where it was: more likely it never restarted.
  return risen(count, next) > limits::least_plausible_rise_mm;
}

}  // namespace

Counted count_up(const std::vector<const Reading*>& counts, const Reading* before,
                 bool everything_counts) {
  Counted out;
  const Reading* last = before;
  for (std::size_t i = 0; i < counts.size(); ++i) {
    const Reading& count = *counts[i];
    const Reading* next = i + 1 < counts.size() ? counts[i + 1] : nullptr;
    if (last == nullptr) {
      last = &count;
      continue;
    }
    if (!everything_counts && next != nullptr && is_stray(*last, count, *next)) {
      ++out.strays;
      continue;
    }
    const bool counts_it = everything_counts || can_be(*last, count);
    out.amount = out.amount.value_or(0.0) + (counts_it ? risen(*last, count) : 0.0);
    out.jumps += counts_it ? 0 : 1;
    last = &count;
  }
  return out;
}

}  // namespace gley::daemon

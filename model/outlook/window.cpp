#include "model/outlook/window.hpp"

#include "model/numeric/elementary.hpp"

namespace gley::model {

std::vector<DayWindow> windows(std::span<const double> chance_by_day, double least_chance) {
  std::vector<DayWindow> out;
  bool open = false;
  for (std::size_t day = 0; day < chance_by_day.size(); ++day) {
    const double chance = chance_by_day[day];
    const bool holds = chance >= least_chance;
    if (holds && !open) out.push_back({.first = day, .end = day, .chance = chance});
    if (holds) {
      out.back().end = day + 1;
      out.back().chance = least(out.back().chance, chance);
    }
    open = holds;
  }
  return out;
}

}  // namespace gley::model

#pragma once
#include <cstddef>
#include <vector>

#include "model/outlook/spread.hpp"
#include "model/water/field_day.hpp"

namespace gley::model {

/// A coming day of a field over the members of the forecast.
struct DaySpread {
  Spread rain_mm;
  Spread depletion_mm;
  Spread topsoil_deficit_mm;
  Spread surplus_mm;
  double chance_at_capacity = 0.0;  ///< of the wetness 'at field capacity' or wetter
  double chance_drains_run = 0.0;
  double chance_runoff = 0.0;  ///< of 1 mm or more
  double chance_frozen = 0.0;  ///< that the ground counts as frozen

  friend bool operator==(const DaySpread&, const DaySpread&) = default;
};

/// Gathers the members' days, then tells how they lie.
class DaySpreads {
 public:
  explicit DaySpreads(std::size_t days) : days_(days) {}

  void note(std::size_t day, const FieldDay& seen);
  [[nodiscard]] std::vector<DaySpread> answer() const;

 private:
  struct Gathered {
    std::vector<double> rain_mm;
    std::vector<double> depletion_mm;
    std::vector<double> topsoil_deficit_mm;
    std::vector<double> surplus_mm;
    std::size_t at_capacity = 0;
    std::size_t drains_run = 0;
    std::size_t runs_off = 0;
    std::size_t frozen = 0;
  };
  std::vector<Gathered> days_;
};

}  // namespace gley::model

#pragma once
#include <functional>

#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/judge/judgement.hpp"

namespace gley::daemon {

/// Hands a field's ended days in order, each with what the day before tells of the ground; the
/// first day of the range looks back on the day before it.
void each_judged_day(const FieldBook& book, std::size_t field, const DayRange& range,
                     const std::function<void(const JudgedDay&)>& take);

/// The verdicts on a judged day by the margin alone: quick enough for years of days.
class MachineVerdicts {
 public:
  explicit MachineVerdicts(const FarmConfig& farm);
  /// By machine, in the order of the configuration.
  [[nodiscard]] std::vector<model::Verdict> on(const JudgedDay& judged) const;

 private:
  std::vector<model::MachineStress> machines_;
};

}  // namespace gley::daemon

#include "daemon/engine/judge/field_days.hpp"

#include "model/ground/ground_margin.hpp"

namespace gley::daemon {

void each_judged_day(const FieldBook& book, std::size_t field, const DayRange& range,
                     const std::function<void(const JudgedDay&)>& take) {
  DayRange with_day_before = range;
  if (range.from) *with_day_before.from -= std::chrono::days{1};
  const FieldHistory& history = book.history(field);
  model::GroundBefore before;
  history.each(book.weather(field).days(), with_day_before, [&](const model::FieldDay& day) {
    if (!range.from || day.date >= *range.from) take({history.field(), day, before});
    before.frozen = day.ground.frozen;
  });
}

MachineVerdicts::MachineVerdicts(const FarmConfig& farm) {
  machines_.reserve(farm.machines.size());
  for (const MachineConfig& machine : farm.machines)
    machines_.push_back(model::machine_stress(load_of(machine), judging_rules.ground));
}

std::vector<model::Verdict> MachineVerdicts::on(const JudgedDay& judged) const {
  const auto ground = model::ground_state(judged.field, judged.day, judged.before);
  const model::GroundLimits& limits = judging_rules.ground;
  const auto strength = model::ground_strength(ground, limits);
  const bool known = model::is_known(ground);
  std::vector<model::Verdict> verdicts;
  verdicts.reserve(machines_.size());
  for (const model::MachineStress& machine : machines_)
    verdicts.push_back(
        known ? model::verdict_of(model::machine_margin(machine, strength, limits), limits)
              : model::Verdict::not_known);
  return verdicts;
}

}  // namespace gley::daemon

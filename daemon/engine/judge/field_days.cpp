#include "daemon/engine/judge/field_days.hpp"

#include "model/ground/ground_margin.hpp"

namespace gley::daemon {

void each_judged_day(const FieldBook& book, std::size_t field, const DateSpan& span,
                     const std::function<void(const JudgedDay&)>& take) {
  model::GroundBefore before;
  book.history(field).each(book.weather(field).days(), span.from - std::chrono::days{1}, span.to,
                           [&](const model::FieldDay& day) {
                             if (day.date >= span.from)
                               take({book.history(field).field(), day, before});
                             before.frozen = day.ground.frozen;
                           });
}

std::optional<DateSpan> dates_of(const FieldBook& book, std::size_t field) {
  const auto& days = book.weather(field).days();
  if (days.empty()) return {};
  return DateSpan{.from = days.front().date, .to = days.back().date};
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

#include "daemon/engine/judge/judgement.hpp"

#include <algorithm>

#include "daemon/engine/judge/field_words.hpp"
#include "daemon/engine/judge/spreading_words.hpp"
#include "daemon/engine/judge/verdict_words.hpp"
#include "daemon/farm/field_setup.hpp"

namespace gley::daemon {

namespace {

/// What would make a verdict better, in words: less pressure, then less load.
void add_remedies(const model::MachineLoad& load, const model::GroundState<double>& ground,
                  std::vector<std::string>& reasons) {
  if (const auto remedy = model::pressure_that_carries_bar(load, ground, judging_rules.ground))
    reasons.push_back(pressure_words(*remedy));
  if (const auto remedy = model::load_share_that_carries(load, ground, judging_rules.ground))
    reasons.push_back(load_words(*remedy, load));
}

/// English guidance: frozen for more than 12 of the last 24 hours.
constexpr double frozen_over_h = 12.0;

std::optional<model::NitrogenAtRisk> nitrogen_at_risk(const MaterialConfig& material,
                                                      const JudgedDay& judged) {
  if (!material.rate_kg_ha || !material.n_pct || !judged.ahead) return {};
  constexpr double percent = 100.0;
  return model::nitrogen_at_risk(
      {.n_kg_ha = *material.rate_kg_ha * *material.n_pct / percent,
       .topsoil_field_capacity = judged.field.parameters.soil.horizon[0].field_capacity},
      *judged.ahead, judging_rules.spreading);
}

model::SpreadingAdvice advise_on(const model::FieldDay& day, const MaterialConfig& material,
                                 const FieldConfig& config, const JudgedDay& judged) {
  model::SpreadingField field = model::spreading_field(
      judged.field, day, model::ground_state(judged.field, day, judged.before),
      spreading_place_of(config));
  if (judged.frozen_h) field.frozen = *judged.frozen_h > frozen_over_h;
  return model::advise(material.kind, field, judged.ahead, judging_rules);
}

}  // namespace

model::MachineLoad load_of(const MachineConfig& machine) {
  return {.heaviest_wheel = {machine.wheel_load_t, machine.tyre_pressure_bar},
          .mass_t = machine.mass_t,
          .cultivates = machine.cultivates,
          .empty_wheel_load_t = machine.empty_wheel_load_t,
          .empty_mass_t = machine.empty_mass_t,
          .tread = machine.tread};
}

model::GroundVerdict judge(const MachineConfig& machine, const JudgedDay& judged) {
  if (judged.silence) return model::verdict_in_silence(*judged.silence);
  const auto verdict_on = [&](const model::FieldDay& day) {
    return model::judge_machine(load_of(machine),
                                model::ground_state(judged.field, day, judged.before),
                                judging_rules.ground);
  };
  model::GroundVerdict said = verdict_on(judged.day);
  if (judged.if_wetter == nullptr) return said;
  return model::verdict_between({said, verdict_on(judged.if_wetter->day), judged.if_wetter->by_mm});
}

model::SpreadingAdvice advise(const MaterialConfig& material, const FieldConfig& config,
                              const JudgedDay& judged) {
  model::SpreadingAdvice said = advise_on(judged.day, material, config, judged);
  if (judged.if_wetter == nullptr) return said;
  return model::advice_between(
      {said, advise_on(judged.if_wetter->day, material, config, judged), judged.if_wetter->by_mm});
}

std::string first_reason(const model::GroundVerdict& verdict, const MachineConfig& machine) {
  return words(verdict.reasons.front(), load_of(machine), judging_rules.ground);
}

std::string first_reason(const model::SpreadingAdvice& advice) {
  return words(advice.reasons.front());
}

std::vector<MachineView> machine_views(const FarmConfig& farm, const JudgedDay& judged) {
  const model::GroundState<double> ground =
      model::ground_state(judged.field, judged.wettest(), judged.before);
  std::vector<MachineView> views;
  for (const MachineConfig& machine : farm.machines) {
    const model::MachineLoad load = load_of(machine);
    const model::GroundVerdict verdict = judge(machine, judged);
    MachineView view;
    view.id = machine.id;
    view.name = machine.name;
    view.verdict = model::to_word(verdict.verdict);
    view.margin = verdict.margin;
    view.reasons = verdict_reasons(verdict, load, judging_rules.ground);
    if (!judged.silence) add_remedies(load, ground, view.reasons);
    views.push_back(std::move(view));
  }
  return views;
}

std::vector<SpreadingView> spreading_views(const FarmConfig& farm, const FieldConfig& config,
                                           const JudgedDay& judged) {
  std::vector<SpreadingView> views;
  for (const MaterialConfig& material : farm.materials) {
    const model::SpreadingAdvice advice = advise(material, config, judged);
    std::vector<std::string> reasons = advice_reasons(advice);
    const auto at_risk = nitrogen_at_risk(material, judged);
    if (at_risk) reasons.push_back(words(*at_risk));
    if (judged.rain) reasons.push_back(words(*judged.rain));
    views.push_back(
        {.id = material.id,
         .name = material.name,
         .advice = std::string(model::to_word(advice.advice)),
         .reasons = std::move(reasons),
         .n_at_risk_kg_ha = at_risk ? std::optional(at_risk->total_kg_ha()) : std::nullopt});
  }
  return views;
}

std::optional<std::string> sign_machine(const FarmConfig& farm, const FieldConfig& config) {
  if (config.sign_machine) return config.sign_machine;
  if (farm.machines.empty()) return {};
  return std::max_element(farm.machines.begin(), farm.machines.end(),
                          [](const MachineConfig& a, const MachineConfig& b) {
                            return a.wheel_load_t < b.wheel_load_t;
                          })
      ->id;
}

}  // namespace gley::daemon

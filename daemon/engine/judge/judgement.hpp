#pragma once
#include <optional>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/rain_gap.hpp"
#include "daemon/engine/judge/spreading_words.hpp"
#include "daemon/farm/farm_config.hpp"
#include "model/spreading/spreading_advice.hpp"
#include "model/water/field_day.hpp"

namespace gley::daemon {

/// What of a field's day is judged.
struct JudgedDay {
  const model::Field& field;
  const model::FieldDay& day;
  model::GroundBefore before;
  std::optional<model::Silence> silence = {};         ///< its station has fallen silent
  std::optional<model::SpreadingOutlook> ahead = {};  ///< of a forecast under 24 h old
  std::optional<double> frozen_h = {};  ///< below 0 degC of the last 24; absent: by the day
  std::optional<RainAround> rain = {};
  const WetterDay* if_wetter = nullptr;  ///< see FarmState::day_if_wetter

  [[nodiscard]] const model::FieldDay& wettest() const {
    return if_wetter != nullptr ? if_wetter->day : day;
  }
};

/// By what the daemon judges: the defaults are the published thresholds, each with its source
/// beside it.
inline constexpr model::SpreadingRules judging_rules;

/// A machine of the configuration as the model knows it.
[[nodiscard]] model::MachineLoad load_of(const MachineConfig& machine);

[[nodiscard]] model::GroundVerdict judge(const MachineConfig& machine, const JudgedDay& judged);

/// Without a forecast the advice is not known; the reasons still name what the field has against
/// it.
[[nodiscard]] model::SpreadingAdvice advise(const MaterialConfig& material,
                                            const FieldConfig& config, const JudgedDay& judged);

/// What decided, in words.
[[nodiscard]] std::string first_reason(const model::GroundVerdict& verdict,
                                       const MachineConfig& machine);
[[nodiscard]] std::string first_reason(const model::SpreadingAdvice& advice);

/// Verdicts and advice as the screens show them.
[[nodiscard]] std::vector<MachineView> machine_views(const FarmConfig& farm,
                                                     const JudgedDay& judged);
[[nodiscard]] std::vector<SpreadingView> spreading_views(const FarmConfig& farm,
                                                         const FieldConfig& config,
                                                         const JudgedDay& judged);

/// The machine whose verdict is the field's sign: its own choice, else the heaviest wheel.
[[nodiscard]] std::optional<std::string> sign_machine(const FarmConfig& farm,
                                                      const FieldConfig& config);

}  // namespace gley::daemon

#pragma once
#include <string>
#include <vector>

#include "model/ground/ground_verdict.hpp"
#include "model/ground/remedy.hpp"

/// Verdicts in sentences a farm manager would say.
namespace gley::daemon {

[[nodiscard]] std::string words(const model::GroundReason& reason,
                                const model::MachineLoad& machine,
                                const model::GroundLimits& limits);

/// All reasons of a verdict, what decided first.
[[nodiscard]] std::vector<std::string> verdict_reasons(const model::GroundVerdict& verdict,
                                                       const model::MachineLoad& machine,
                                                       const model::GroundLimits& limits);

/// "at 0.6 bar it would be carried, if the tyres allow that under this load"
[[nodiscard]] std::string pressure_words(const model::Remedy& remedy);

/// "half full it would be carried" where the empty machine's weight is known, else "with 0.7 of the
/// load it would be carried with care".
[[nodiscard]] std::string load_words(const model::Remedy& remedy,
                                     const model::MachineLoad& machine);

/// Why a verdict is not that of the soil as said.
[[nodiscard]] std::string rain_not_known_words(double wetter_mm);

/// Why the ground is closed to wheels, whichever machine asks.
[[nodiscard]] std::string gate_words(const model::GroundReason& reason);

/// What was found beside what is needed: whole from ten up, else in tenths, and "just under" where
/// tenths do not tell them apart.
struct NumberPair {
  std::string found;
  std::string needed;
};
[[nodiscard]] NumberPair told_apart(double found, double needed);

}  // namespace gley::daemon

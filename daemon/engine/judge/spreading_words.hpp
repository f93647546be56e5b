#pragma once
#include <optional>
#include <string>
#include <vector>

#include "model/spreading/nitrogen_at_risk.hpp"
#include "model/spreading/spreading_advice.hpp"

/// Spreading advice in sentences a farm manager would say.
namespace gley::daemon {

[[nodiscard]] std::string words(const model::SpreadingReason& reason);

/// All reasons of an advice, what holds first.
[[nodiscard]] std::vector<std::string> advice_reasons(const model::SpreadingAdvice& advice);

/// "up to 4 of 50 kg N/ha at risk: 3 leached within 7 days, 1 in runoff within 48 h". Whole
/// kilograms: neither formula knows tenths, and runoff's is an upper bound.
[[nodiscard]] std::string words(const model::NitrogenAtRisk& nitrogen);

/// How long it has been dry, and stays so.
struct RainAround {
  std::optional<double> since_h = {};  ///< at least; absent: the readings do not tell
  bool is_forecast = false;
  std::optional<double> until_h = {};  ///< until 1 mm has fallen in half the members
};
/// "no rain for over 12 h; next rain in about 30 h"
[[nodiscard]] std::string words(const RainAround& rain);

}  // namespace gley::daemon

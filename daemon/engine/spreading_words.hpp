#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "model/spreading/spreading_advice.hpp"

/// Spreading advice in sentences a farm manager would say.
namespace gley::daemon {

/// Ends every advice: the daemon advises, others decide.
inline constexpr std::string_view spreading_caution =
    "Local codes, closed periods and product labels decide; this only advises.";

[[nodiscard]] std::string words(const model::SpreadingReason& reason);

/// All reasons of an advice, what holds first.
[[nodiscard]] std::vector<std::string> advice_reasons(const model::SpreadingAdvice& advice);

}  // namespace gley::daemon

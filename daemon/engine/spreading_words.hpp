#pragma once
#include <string>
#include <vector>

#include "model/spreading/spreading_advice.hpp"

/// Spreading advice in sentences a farm manager would say.
namespace gley::daemon {

[[nodiscard]] std::string words(const model::SpreadingReason& reason);

/// All reasons of an advice, what holds first.
[[nodiscard]] std::vector<std::string> advice_reasons(const model::SpreadingAdvice& advice);

}  // namespace gley::daemon

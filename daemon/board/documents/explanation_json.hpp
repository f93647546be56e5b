#pragma once
#include <string>

#include "daemon/board/snapshot/explanation.hpp"

namespace gley::daemon {

/// {field, name, date, so_far, intro[], sections[{title, lines[{key, name, value, unit, equation,
/// source, note}]}]}; what a line lacks is left out, a number that is none is null.
[[nodiscard]] std::string explanation_json(const Explanation& explanation);

}  // namespace gley::daemon

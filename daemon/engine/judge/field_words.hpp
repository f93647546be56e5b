#pragma once
#include <string>
#include <vector>

#include "model/water/field_day.hpp"

namespace gley::daemon {

/// Why a field is as wet as it is, in sentences a farm manager would say, most important first.
[[nodiscard]] std::vector<std::string> wetness_reasons(const model::Field& field,
                                                       const model::FieldDay& day);

}  // namespace gley::daemon

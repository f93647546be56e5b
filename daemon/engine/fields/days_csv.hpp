#pragma once
#include <string>

#include "model/water/field_day.hpp"

namespace gley::daemon {

/// The day file of replay and of the board, to the byte. One row a field and day.
/// theta_layers: how many theta columns the file has; a field with fewer layers leaves them blank.
[[nodiscard]] std::string days_csv_header(int theta_layers);
[[nodiscard]] std::string days_csv_row(const std::string& field_id, const model::Field& field,
                                       const model::FieldDay& day, int theta_layers);

}  // namespace gley::daemon

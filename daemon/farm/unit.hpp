#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "daemon/farm/farm_config.hpp"

/// The one place where units are converted: from the names of the SenML registries (RFC 8428 and
/// RFC 8798, kept by IANA) and of UCUM to the model's unit for each quantity.
namespace gley::daemon {

/// The value in the model's unit (daemon/readings/reading.hpp); empty if the unit cannot be
/// converted to it, or the quantity does not come in this form.
[[nodiscard]] std::optional<double> convert(double value, std::string_view unit, Quantity quantity,
                                            ReadingForm form);

/// True if `convert` can read this unit for the quantity in this form.
[[nodiscard]] bool known_unit(Quantity quantity, ReadingForm form, std::string_view unit);

/// The units known for a quantity in a form, joined by ", ", for messages; empty if the quantity
/// does not come in this form at all.
[[nodiscard]] std::string known_units(Quantity quantity, ReadingForm form);

}  // namespace gley::daemon

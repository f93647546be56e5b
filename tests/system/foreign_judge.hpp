#pragma once
#include "tests/system/process.hpp"

/// Programs that are not ours, and say what is wrong with a text; empty if nothing is.
namespace gley::tests {

/// The JSON Schema of this name in config/schema, by Debian's python3-jsonschema.
[[nodiscard]] std::string schema_faults(const std::string& schema, const std::string& json);

/// The parser of python3-prometheus-client for the form "openmetrics" or "text".
[[nodiscard]] std::string metrics_faults(const std::string& form, const std::string& metrics);

}  // namespace gley::tests

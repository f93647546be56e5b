#pragma once
#include <string>
#include <vector>

#include "daemon/readings/reading.hpp"
#include "daemon/text/number_text.hpp"

namespace gley::tests {

struct SenmlValue {
  std::string name;
  daemon::Instant at;  ///< written in whole seconds
  double value = 0.0;
  std::string unit = {};  ///< empty: the mapping's
};

/// A pack of one record a value (RFC 8428).
[[nodiscard]] inline std::string senml_pack(const std::vector<SenmlValue>& values) {
  std::string text;
  for (const SenmlValue& one : values) {
    const auto at = std::chrono::floor<std::chrono::seconds>(one.at).time_since_epoch();
    text += (text.empty() ? "[" : ",") + std::string("{\"n\":\"") + one.name +
            "\",\"t\":" + std::to_string(at.count()) +
            (one.unit.empty() ? "" : ",\"u\":\"" + one.unit + "\"") +
            ",\"v\":" + daemon::number_text(one.value) + "}";
  }
  return text + "]";
}

}  // namespace gley::tests

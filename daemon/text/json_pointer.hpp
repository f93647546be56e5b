#pragma once
#include <nlohmann/json_fwd.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

/// An RFC 6901 pointer: where in a JSON document a value stands.
class JsonPointer {
 public:
  /// Empty if the text is no pointer: it neither is empty nor starts with '/', or has a '~' that is
  /// not followed by 0 or 1.
  [[nodiscard]] static std::optional<JsonPointer> parse(std::string_view text);

  /// The value it names, or null if the document has none there. Lives as long as the document.
  [[nodiscard]] const nlohmann::json* find(const nlohmann::json& document) const;

 private:
  std::vector<std::string> tokens_;
};

}  // namespace gley::daemon

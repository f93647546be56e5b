#pragma once
#include <nlohmann/json.hpp>
#include <string>

namespace gley::daemon {

/// JSON on one line. Names may hold bytes that are no UTF-8; they become U+FFFD, as an exception
/// here would leave a topic or page without its news.
template <class Json>
[[nodiscard]] std::string json_text(const Json& json) {
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// An array of what `of` makes of each.
template <class Rows, class Of>
[[nodiscard]] nlohmann::ordered_json json_list(const Rows& rows, Of of) {
  auto out = nlohmann::ordered_json::array();
  for (const auto& row : rows) out.push_back(of(row));
  return out;
}

}  // namespace gley::daemon

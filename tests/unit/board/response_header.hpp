#pragma once
#include <string>

#include "daemon/board/http/http_message.hpp"

namespace gley::daemon {

/// The value of a response's header; empty without one.
[[nodiscard]] inline std::string header(const Response& response, const std::string& name) {
  for (const auto& [key, value] : response.headers)
    if (key == name) return value;
  return "";
}

}  // namespace gley::daemon

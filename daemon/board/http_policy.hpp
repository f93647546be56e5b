#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "daemon/board/http_message.hpp"

namespace gley::daemon {

/// Headers of every answer: what a browser may do with it. Pages load nothing from elsewhere.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& policy_headers();

/// A tag that changes with the body, in the quotes of RFC 9110, section 8.8.3.
[[nodiscard]] std::string entity_tag(std::string_view body);

/// Adds the headers of every answer, and to a 200 its tag; makes it 304 without a body where the
/// client has that very text already.
void finish(const Request& request, Response& response);

}  // namespace gley::daemon

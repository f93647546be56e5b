#pragma once
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "daemon/board/http/http_message.hpp"

namespace gley::daemon {

/// Headers of every answer: what a browser may do with it. Pages load nothing from elsewhere.
[[nodiscard]] const std::vector<std::pair<std::string, std::string>>& policy_headers();

/// A tag that changes with the body, in the form of RFC 9110, section 8.8.3: a weak one, for it
/// stays the same whether the body is sent compressed or not.
[[nodiscard]] std::string entity_tag(std::string_view body);

/// The q that a list of an Accept header gives a name in it (RFC 9110, section 12.4.2); 0 if it
/// does not stand there.
[[nodiscard]] double quality_of(std::string_view accepted, std::string_view name);

/// Adds the headers of every answer, and to a 200 its tag; makes it 304 without a body where the
/// client has that very text already.
void finish(const Request& request, Response& response);

}  // namespace gley::daemon

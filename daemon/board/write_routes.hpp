#pragma once
#include <functional>
#include <string>

#include "daemon/board/http/http_message.hpp"

namespace gley::daemon {

/// Takes the message of a write for the field or alert that the address names.
using Write = std::function<Response(const std::string& id, const std::string& body)>;

/// What may be written.
struct Writes {
  Write dressing;  ///< POST /api/field/<id>/dressing
  Write report;    ///< POST /api/field/<id>/report
  Write seen;      ///< POST /api/alert/<id>/seen
};

/// The answer to a write that refuse_write let in.
[[nodiscard]] Response respond_to_write(const Request& request, const Writes& writes);

}  // namespace gley::daemon

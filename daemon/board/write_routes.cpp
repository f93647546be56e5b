#include "daemon/board/write_routes.hpp"

#include "daemon/board/http/http_target.hpp"
#include "daemon/board/http/write_guard.hpp"

namespace gley::daemon {

namespace {

struct WriteRoute {
  std::string_view pattern;  ///< a * stands for the id
  Write Writes::*write;
};

constexpr WriteRoute routes[] = {
    {"/api/field/*/dressing", &Writes::dressing},
    {"/api/field/*/report", &Writes::report},
    {"/api/alert/*/seen", &Writes::seen},
};

Response with_allow(Response response, const char* methods) {
  response.headers.emplace_back("Allow", methods);
  return response;
}

}  // namespace

Response respond_to_write(const Request& request, const Writes& writes) {
  for (const WriteRoute& route : routes) {
    const auto id = match(route.pattern, request.path);
    if (!id) continue;
    if (request.method != "POST")
      return with_allow(json_refusal(405, "this address takes POST only"), "POST");
    return (writes.*route.write)(std::string(*id), request.body);
  }
  return with_allow(json_refusal(405, "this address can only be read: GET or HEAD"), "GET, HEAD");
}

}  // namespace gley::daemon

#include "daemon/board/write_routes.hpp"

#include "daemon/board/http/write_guard.hpp"

namespace gley::daemon {

namespace {

struct WriteRoute {
  const char* before;
  const char* after;
  Write Writes::*write;
};

constexpr WriteRoute routes[] = {
    {"/api/field/", "/dressing", &Writes::dressing},
    {"/api/field/", "/report", &Writes::report},
    {"/api/alert/", "/seen", &Writes::seen},
};

Response with_allow(Response response, const char* methods) {
  response.headers.emplace_back("Allow", methods);
  return response;
}

}  // namespace

std::string id_between(const std::string& path, const std::string& before,
                       const std::string& after) {
  const bool fits = path.size() > before.size() + after.size() && path.starts_with(before) &&
                    path.ends_with(after);
  if (!fits) return {};
  std::string id = path.substr(before.size(), path.size() - before.size() - after.size());
  return id.find('/') == std::string::npos ? id : std::string();
}

Response respond_to_write(const Request& request, const Writes& writes) {
  for (const WriteRoute& route : routes) {
    const std::string id = id_between(request.path, route.before, route.after);
    if (id.empty()) continue;
    if (request.method != "POST")
      return with_allow(json_refusal(405, "this address takes POST only"), "POST");
    return (writes.*route.write)(id, request.body);
  }
  return with_allow(json_refusal(405, "this address can only be read: GET or HEAD"), "GET, HEAD");
}

}  // namespace gley::daemon

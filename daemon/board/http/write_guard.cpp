#include "daemon/board/http/write_guard.hpp"

#include "daemon/farm/secret_file.hpp"
#include "daemon/text/ascii_case.hpp"
#include "daemon/text/json_text.hpp"

namespace gley::daemon {

namespace {

constexpr std::size_t most_body_bytes = 4096;

/// A browser names the page's origin with every write (Fetch standard, "Origin" header), so one of
/// another host, or an opaque one ("null"), is a forgery. Programs send neither header.
bool of_another_site(const Request& request) {
  if (!request.fetch_site.empty() && request.fetch_site != "same-origin" &&
      request.fetch_site != "none")
    return true;
  if (request.origin.empty()) return false;
  const std::string origin = lower_case(request.origin);
  const std::string host = lower_case(request.host);
  return origin != "http://" + host && origin != "https://" + host;
}

/// The token after "Bearer " (RFC 6750, section 2.1); the scheme in any case (RFC 9110, 11.1).
std::string_view bearer_token(std::string_view authorization) {
  constexpr std::string_view scheme = "bearer ";
  if (lower_case(authorization.substr(0, scheme.size())) != scheme) return {};
  return authorization.substr(scheme.size());
}

bool is_json(std::string_view content_type) {
  const std::string type = lower_case(content_type.substr(0, content_type.find(';')));
  const std::size_t end = type.find_last_not_of(" \t");
  return end != std::string::npos && type.substr(0, end + 1) == "application/json";
}

}  // namespace

std::string write_token(const HttpConfig& http) {
  if (!http.token_file) return {};
  return secret_of(*http.token_file, "token");
}

bool is_write(const Request& request) {
  return request.method != "GET" && request.method != "HEAD";
}

bool same_secret(std::string_view given, std::string_view wanted) {
  // Every character given is looked at, against the wanted text over and over.
  unsigned difference = given.size() == wanted.size() ? 0U : 1U;
  for (std::size_t i = 0; i < given.size(); ++i) {
    const char own = wanted.empty() ? '\0' : wanted[i % wanted.size()];
    difference |= static_cast<unsigned>(static_cast<unsigned char>(given[i]) ^
                                        static_cast<unsigned char>(own));
  }
  return difference == 0U && !wanted.empty();
}

Response json_refusal(int status, const std::string& error) {
  return {.status = status,
          .content_type = "application/json",
          .body = json_text(nlohmann::json{{"error", error}})};
}

std::optional<Response> refuse_write(const Request& request, std::string_view token) {
  if (token.empty())
    return json_refusal(403, "nothing is taken here: the daemon has no [http] token_file");
  if (of_another_site(request))
    return json_refusal(403, "this comes from a page of another origin");
  if (!same_secret(bearer_token(request.authorization), token)) {
    Response response = json_refusal(401, "the token is missing or not the right one");
    response.headers.emplace_back("WWW-Authenticate", "Bearer realm=\"gley\"");
    return response;
  }
  if (request.body.size() > most_body_bytes)
    return json_refusal(413, "the message must not be longer than 4096 bytes");
  if (!request.body.empty() && !is_json(request.content_type))
    return json_refusal(415, "the message must be JSON, sent as application/json");
  return {};
}

}  // namespace gley::daemon

#pragma once
#include <map>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

/// A request and its answer as plain strings: what the pages see of HTTP.
namespace gley::daemon {

struct Request {
  std::string method = "GET";
  std::string path = "/";  ///< decoded; as many slashes as the client sent
  std::map<std::string, std::string> query;
  std::string accept;
  std::string accept_encoding;
  std::string authorization;
  std::string if_none_match;
  std::string host;
  std::string origin;
  std::string fetch_site;  ///< Sec-Fetch-Site (W3C Fetch Metadata); empty where it is not sent
  std::string content_type;
  std::string body;
};

struct Response {
  int status = 200;
  std::string content_type = "text/plain; charset=utf-8";
  std::string body = {};
  std::vector<std::pair<std::string, std::string>> headers = {};
  bool event_stream = false;  ///< the server keeps the connection open and sends events
};

/// The value of an answer's header; empty without one.
[[nodiscard]] inline std::string header(const Response& response, std::string_view name) {
  for (const auto& [key, value] : response.headers)
    if (key == name) return value;
  return {};
}

}  // namespace gley::daemon

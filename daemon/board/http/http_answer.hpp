#pragma once
#include <boost/beast/http/message.hpp>
#include <boost/beast/http/string_body.hpp>
#include <functional>
#include <string>

#include "daemon/board/http/callers.hpp"
#include "daemon/board/http/gzip.hpp"
#include "daemon/board/http/http_message.hpp"

namespace gley::daemon {

using HttpRequest = boost::beast::http::request<boost::beast::http::string_body>;
using HttpResponse = boost::beast::http::response<boost::beast::http::string_body>;

/// What was turned away, for those that watch the daemon.
struct HttpRefusals {
  std::uint64_t connections = 0;   ///< over a limit, of all or of one address
  std::uint64_t work = 0;          ///< answered 429 for what the address took before
  std::uint64_t wrong_tokens = 0;  ///< looked at and wrong
  std::uint64_t tokens = 0;        ///< not looked at, after too many wrong ones
  std::uint64_t host_names = 0;    ///< for a name that is not ours
};

/// From a request as it was parsed to the answer as it is sent, on the server's thread.
class HttpAnswerer {
 public:
  using Handler = std::function<Response(const Request&)>;

  HttpAnswerer(Handler handler, Callers& callers, HttpRefusals& refusals)
      : handler_(std::move(handler)), callers_(callers), refusals_(refusals) {}

  /// caller: as caller_address() gives it. may_listen: whether one more may stay for events.
  [[nodiscard]] Response answer(const HttpRequest& message, const std::string& caller,
                                bool may_listen);

 private:
  [[nodiscard]] Response respond(const Request& request, const std::string& caller);
  [[nodiscard]] Response handled(const Request& request);
  void note(const Request& request, const Response& response, const std::string& caller);

  Handler handler_;
  Callers& callers_;
  HttpRefusals& refusals_;
  Shortener shortener_;
};

[[nodiscard]] HttpResponse to_message(Response response, const HttpRequest& request);

/// The answer to what could not be parsed.
[[nodiscard]] Response refusal_of(const boost::system::error_code& error);

/// Whether an error of reading is the client's, who can be told of it.
[[nodiscard]] bool is_malformed(const boost::system::error_code& error);

/// The time for a Date header.
[[nodiscard]] std::string now_text();

}  // namespace gley::daemon

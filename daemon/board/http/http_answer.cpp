#include "daemon/board/http/http_answer.hpp"

#include <spdlog/spdlog.h>

#include <boost/beast/http/error.hpp>

#include "daemon/board/http/http_policy.hpp"
#include "daemon/board/http/http_target.hpp"
#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/words/local_time.hpp"

namespace gley::daemon {

namespace beast = boost::beast;
namespace http = beast::http;
using boost::system::error_code;

namespace {

using Clock = std::chrono::steady_clock;

constexpr int unauthorized = 401;
constexpr int forbidden = 403;
constexpr int misdirected = 421;

std::string_view view(beast::string_view text) {
  return {text.data(), text.size()};
}

Response plain(int status, std::string text) {
  return {.status = status, .body = std::move(text)};
}

/// 429 (RFC 6585, section 4).
Response later(const Request& request, std::chrono::seconds rest, const std::string& why) {
  Response response = is_write(request) ? json_refusal(429, why) : plain(429, why + ".\n");
  response.headers.emplace_back("Retry-After", std::to_string(rest.count()));
  return response;
}

Request to_request(const HttpRequest& message, HttpTarget target) {
  const auto header_of = [&](auto name) { return std::string(view(message[name])); };
  return {.method = std::string(view(message.method_string())),
          .path = std::move(target.path),
          .query = std::move(target.query),
          .accept = header_of(http::field::accept),
          .accept_encoding = header_of(http::field::accept_encoding),
          .authorization = header_of(http::field::authorization),
          .if_none_match = header_of(http::field::if_none_match),
          .host = header_of(http::field::host),
          .origin = header_of(http::field::origin),
          .fetch_site = header_of("Sec-Fetch-Site"),
          .content_type = header_of(http::field::content_type),
          .body = message.body()};
}

}  // namespace

std::string now_text() {
  return http_date(std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()));
}

Response HttpAnswerer::handled(const Request& request) {
  try {
    return handler_(request);
  } catch (const std::exception& fault) {
    spdlog::error("http: {} {}: {}", request.method, request.path, fault.what());
    return plain(500, "The daemon could not make this page; its log says why.\n");
  }
}

void HttpAnswerer::note(const Request& request, const Response& response,
                        const std::string& caller) {
  if (response.status == misdirected) ++refusals_.host_names;
  const bool is_kept_out =
      is_write(request) && (response.status == unauthorized || response.status == forbidden);
  if (is_kept_out && callers_.worth_naming(caller, Clock::now()))
    spdlog::warn("http: a write from {} is not let in: {} {}", caller, request.method,
                 request.path);
  if (response.status != unauthorized || request.authorization.empty()) return;
  ++refusals_.wrong_tokens;
  if (callers_.brought_wrong_token(caller, Clock::now()))
    spdlog::warn(
        "http: too many wrong tokens from {}: none of its is looked at for {} s; if it is one of "
        "yours, give it the token that token_file names",
        caller, callers_.token_rest(caller, Clock::now()).count());
}

Response HttpAnswerer::respond(const Request& request, const std::string& caller) {
  const auto now = Clock::now();
  if (const auto rest = callers_.rest(caller, now); rest.count() > 0) {
    ++refusals_.work;
    if (callers_.worth_naming(caller, now))
      spdlog::warn("http: {} asks for more than its share; it is answered 429 until it has rested",
                   caller);
    return later(request, rest, "too much was asked from this address; ask again later");
  }
  const auto token_rest = callers_.token_rest(caller, now);
  if (token_rest.count() > 0 && is_write(request) && !request.authorization.empty()) {
    ++refusals_.tokens;
    return later(request, token_rest, "too many wrong tokens from this address; wait a minute");
  }
  Response response = handled(request);
  note(request, response, caller);
  return response;
}

Response HttpAnswerer::answer(const HttpRequest& message, const std::string& caller,
                              bool may_listen) {
  auto target = parse_target(view(message.target()));
  const bool named = message.version() < 11 || message.count(http::field::host) == 1;
  if (!target || !named) {
    Response response = plain(
        400, named ? "This address is not understood.\n" : "The request does not name its host.\n");
    finish({}, response);
    return response;
  }
  const auto begun = Clock::now();
  const Request request = to_request(message, *std::move(target));
  Response response = respond(request, caller);
  if (response.event_stream && !may_listen)
    response = plain(503, "Too many displays are listening already.\n");
  finish(request, response);
  shortener_.shorten(request, response);
  const auto done = Clock::now();
  callers_.worked(caller, done - begun, done);
  return response;
}

HttpResponse to_message(Response response, const HttpRequest& request) {
  HttpResponse message{static_cast<http::status>(response.status), request.version()};
  message.set(http::field::date, now_text());
  for (const auto& [name, value] : response.headers) message.set(name, value);
  if (response.status != 304) {
    message.set(http::field::content_type, response.content_type);
    message.content_length(response.body.size());
  }
  if (request.method() != http::verb::head) message.body() = std::move(response.body);
  return message;
}

Response refusal_of(const error_code& error) {
  Response response = plain(400, "This is not an HTTP request.\n");
  if (error == http::error::header_limit || error == http::error::buffer_overflow)
    response = plain(431, "The request's headers are too large.\n");
  if (error == http::error::body_limit) response = plain(413, "The request's body is too large.\n");
  finish({}, response);
  return response;
}

bool is_malformed(const error_code& error) {
  return error.category() == make_error_code(http::error::bad_method).category() &&
         error != http::error::end_of_stream && error != http::error::partial_message;
}

}  // namespace gley::daemon

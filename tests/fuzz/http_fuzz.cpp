#include <boost/asio/buffer.hpp>
#include <boost/beast/http.hpp>
#include <cstdint>
#include <nlohmann/json.hpp>

#include "daemon/board/http/http_policy.hpp"
#include "daemon/board/http/http_target.hpp"
#include "daemon/board/http/write_guard.hpp"
#include "daemon/board/routes.hpp"
#include "daemon/board/write_routes.hpp"
#include "daemon/readings/told.hpp"
#include "tests/fuzz/must.hpp"
#include "tests/unit/board/board_example.hpp"

using namespace gley::daemon;
using namespace gley::tests;
namespace http = boost::beast::http;

namespace {

constexpr const char* token = "secret";
const Instant now = example_time;

std::string text_of(boost::beast::string_view view) {
  return {view.data(), view.size()};
}

/// What the server makes of the bytes, as far as it needs no socket.
std::optional<Request> request_of(std::string_view bytes) {
  http::request_parser<http::string_body> parser;
  parser.eager(true);
  parser.header_limit(8192);
  parser.body_limit(4096);
  boost::beast::error_code error;
  parser.put(boost::asio::buffer(bytes.data(), bytes.size()), error);
  if (error || !parser.is_header_done()) return {};
  const auto& message = parser.get();
  auto target = parse_target({message.target().data(), message.target().size()});
  if (!target) return {};
  return Request{.method = text_of(message.method_string()),
                 .path = target->path,
                 .query = target->query,
                 .accept = text_of(message[http::field::accept]),
                 .authorization = text_of(message[http::field::authorization]),
                 .if_none_match = text_of(message[http::field::if_none_match]),
                 .host = text_of(message[http::field::host]),
                 .origin = text_of(message[http::field::origin]),
                 .fetch_site = text_of(message["Sec-Fetch-Site"]),
                 .content_type = text_of(message[http::field::content_type]),
                 .body = message.body()};
}

Response taken_or_not(const auto& told) {
  if (told) return {.status = 200, .body = "{}"};
  must_be_a_line(told.error().detail);
  return json_refusal(400, told.error().detail);
}

Writes writes() {
  static const TellTerms terms{.fields = {"top"},
                               .materials = {{"nitrogen", MaterialKind::mineral_fertiliser}},
                               .machines = {"drill"}};
  return {.dressing =
              [](const std::string& id, const std::string& body) {
                return taken_or_not(decode_dressing(body, terms, {.now = now, .field = id}));
              },
          .report =
              [](const std::string& id, const std::string& body) {
                return taken_or_not(decode_report(body, terms, {.now = now, .field = id}));
              },
          .seen = [](const std::string&,
                     const std::string& body) { return taken_or_not(decode_seen(body)); }};
}

PageSources sources() {
  PageSources sources;
  sources.days = [](const std::string&, const DayRange&) { return std::string("date\n"); };
  return sources;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const BoardSnapshot board = example_board();
  const auto request = request_of({reinterpret_cast<const char*>(data), size});
  if (!request) return 0;
  must(request->path.find('\0') == std::string::npos, "a path without a zero");
  Response response;
  if (is_write(*request)) {
    const auto refused = refuse_write(*request, token);
    const bool has_token = request->authorization.find(token) != std::string::npos;
    must(refused.has_value() || has_token, "no write without its token");
    response = refused ? *refused : respond_to_write(*request, writes());
  } else {
    response = respond(*request, board, sources());
  }
  must(response.status >= 200 && response.status < 600, "a status of HTTP");
  for (const auto& [name, value] : response.headers)
    must((name + value).find_first_of("\r\n") == std::string::npos, "headers of one line");
  if (response.content_type.starts_with("application/json"))
    must(nlohmann::json::accept(response.body), "JSON where JSON is promised");
  return 0;
}

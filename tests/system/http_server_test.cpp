#include "daemon/board/http/http_server.hpp"

#include <boost/asio/io_context.hpp>
#include <boost/asio/post.hpp>
#include <catch2/catch.hpp>
#include <future>
#include <thread>
#include <vector>

#include "daemon/board/http/http_answer.hpp"
#include "tests/system/raw_client.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;
using tests::RawClient;

Response answer(const Request& request) {
  Response response;
  if (request.path == "/events") {
    response.content_type = "text/event-stream";
    response.event_stream = true;
  } else if (request.path == "/slow") {
    const auto end = std::chrono::steady_clock::now() + 100ms;
    while (std::chrono::steady_clock::now() < end) {
    }
  } else if (request.path == "/write") {
    response.status = request.authorization == "Bearer right" ? 200 : 401;
  } else if (request.path == "/text") {
    response.body.assign(10000, 'x');
  } else if (request.path == "/fault") {
    throw std::runtime_error("a fault of the page");
  } else if (request.path == "/large") {
    response.body.assign(std::size_t{64} << 20, 'x');
  } else {
    response.body = request.method + ' ' + request.path + '\n' + request.body;
  }
  return response;
}

/// A server on a free port with a thread of its own; what asks it runs on that thread.
class TestServer {
 public:
  explicit TestServer(HttpLimits limits = {})
      : server_(std::make_unique<HttpServer>(context_, "127.0.0.1", 0, answer, limits)),
        port_(server_->port()),
        thread_([this] { context_.run(); }) {}
  ~TestServer() {
    boost::asio::post(context_, [this] { server_.reset(); });
    thread_.join();  // ends only if nothing the server began is left waiting
  }
  TestServer(const TestServer&) = delete;
  TestServer& operator=(const TestServer&) = delete;

  [[nodiscard]] std::uint16_t port() const { return port_; }

  template <typename Question>
  auto ask(Question question) {
    std::promise<decltype(question(*server_))> promise;
    boost::asio::post(context_, [&] { promise.set_value(question(*server_)); });
    return promise.get_future().get();
  }

  void notify(const std::string& data) {
    ask([&](HttpServer& server) {
      server.notify(data);
      return true;
    });
  }

  std::size_t event_clients() {
    return ask([](const HttpServer& server) { return server.event_clients(); });
  }

  std::size_t connections() {
    return ask([](const HttpServer& server) { return server.connections(); });
  }

  HttpRefusals refusals() {
    return ask([](const HttpServer& server) { return server.refusals(); });
  }

 private:
  boost::asio::io_context context_;
  std::unique_ptr<HttpServer> server_;
  std::uint16_t port_;
  std::thread thread_;
};

constexpr std::string_view host = " HTTP/1.1\r\nHost: farm\r\n";

std::string request(std::string_view line, std::string_view more = "") {
  return std::string(line) + std::string(host) + std::string(more) + "\r\n";
}

/// The whole of what comes for one request on a connection of its own.
std::string whole_answer(const TestServer& server, const std::string& text) {
  RawClient client(server.port());
  REQUIRE(client.send(text));
  REQUIRE(client.read_to_close());
  return client.received();
}

std::string close_after(std::string_view line) {
  return request(line, "Connection: close\r\n");
}

TEST_CASE("a page is answered whole, with its length and the headers of every page") {
  const TestServer server;
  const std::string answer_text = whole_answer(server, close_after("GET /ground"));
  CHECK(answer_text.starts_with("HTTP/1.1 200 OK\r\n"));
  CHECK(answer_text.find("\r\nContent-Length: 12\r\n") != std::string::npos);
  CHECK(answer_text.find("\r\nContent-Security-Policy: default-src 'none'") != std::string::npos);
  CHECK(answer_text.find("\r\nDate: ") != std::string::npos);
  CHECK(answer_text.ends_with("\r\n\r\nGET /ground\n"));
}

TEST_CASE("a connection carries one request after another, and two sent at once") {
  const TestServer server;
  RawClient client(server.port());
  for (const char* path : {"GET /a", "GET /b"}) {
    REQUIRE(client.send(request(path)));
    CHECK(client.read_until(std::string(path) + '\n'));
  }
  REQUIRE(client.send(request("GET /c") + request("GET /d")));
  CHECK(client.read_until("GET /c\n"));
  CHECK(client.read_until("GET /d\n"));
}

TEST_CASE("HEAD tells the length and sends no body") {
  const TestServer server;
  const std::string answer_text = whole_answer(server, close_after("HEAD /ground"));
  CHECK(answer_text.find("\r\nContent-Length: 13\r\n") != std::string::npos);
  CHECK(answer_text.ends_with("\r\n\r\n"));
}

TEST_CASE("a known tag is answered without a body") {
  const TestServer server;
  RawClient client(server.port());
  REQUIRE(client.send(request("GET /ground")));
  REQUIRE(client.read_until("GET /ground\n"));
  const std::size_t at = client.received().find("ETag: ");
  REQUIRE(at != std::string::npos);
  const std::string tag =
      client.received().substr(at + 6, client.received().find('\r', at) - at - 6);
  client.forget();
  REQUIRE(
      client.send(request("GET /ground", "Connection: close\r\nIf-None-Match: " + tag + "\r\n")));
  REQUIRE(client.read_to_close());
  CHECK(client.received().starts_with("HTTP/1.1 304 "));
  CHECK(client.received().ends_with("\r\n\r\n"));
}

TEST_CASE("a path that could mean something else is a bad request") {
  const TestServer server;
  for (const char* line : {"GET /../etc/passwd", "GET //x", "GET /%2e%2e/x", "GET /a%00",
                           "GET /a\\..\\b", "GET http://farm/", "OPTIONS *"}) {
    INFO(line);
    CHECK(whole_answer(server, close_after(line)).starts_with("HTTP/1.1 400 "));
  }
}

TEST_CASE("a request that is none, or names no host, is refused and closed") {
  const TestServer server;
  CHECK(whole_answer(server, "weather\r\n\r\n").starts_with("HTTP/1.1 400 "));
  CHECK(whole_answer(server, "GET / HTTP/1.1\r\nConnection: close\r\n\r\n")
            .starts_with("HTTP/1.1 400 "));
  CHECK(whole_answer(server, "GET / HTTP/1.0\r\n\r\n").starts_with("HTTP/1.0 200 "));
}

TEST_CASE("headers and bodies over the limit are refused in words") {
  const TestServer server;
  const std::string large(9 * 1024, 'x');
  CHECK(whole_answer(server, request("GET /", "X-Large: " + large + "\r\n"))
            .starts_with("HTTP/1.1 431 "));
  CHECK(whole_answer(server, request("GET /" + large)).starts_with("HTTP/1.1 431 "));
  CHECK(whole_answer(server, request("POST /", "Content-Length: 16385\r\n"))
            .starts_with("HTTP/1.1 413 "));
  CHECK(
      whole_answer(server, request("POST /", "Content-Length: 3\r\nConnection: close\r\n") + "abc")
          .ends_with("POST /\nabc"));
}

TEST_CASE("a fault in a page is answered, and the next page is served") {
  const TestServer server;
  const std::string fault = whole_answer(server, close_after("GET /fault"));
  CHECK(fault.starts_with("HTTP/1.1 500 "));
  CHECK(fault.find("a fault of the page") == std::string::npos);
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
}

TEST_CASE("a client that sends its request too slowly is dropped") {
  HttpLimits limits;
  limits.read_deadline = 200ms;
  TestServer server(limits);
  RawClient silent(server.port());
  RawClient slow(server.port());
  REQUIRE(slow.send("GET / HTTP/1.1\r\nHo"));
  CHECK(silent.read_to_close());
  CHECK(slow.read_to_close());
  CHECK(slow.received().empty());
  CHECK(tests::eventually([&] { return server.connections() == 0; }));
}

TEST_CASE("a client that takes no answer is dropped") {
  HttpLimits limits;
  limits.write_deadline = 200ms;
  TestServer server(limits);
  RawClient stuck(server.port(), 4096);
  REQUIRE(stuck.send(request("GET /large")));
  CHECK(tests::eventually([&] { return server.connections() == 1; }));
  CHECK(tests::eventually([&] { return server.connections() == 0; }));
}

TEST_CASE("connections over the limit are closed, and room is given back") {
  HttpLimits limits;
  limits.connections = 2;
  TestServer server(limits);
  {
    RawClient first(server.port());
    RawClient second(server.port());
    REQUIRE(tests::eventually([&] { return server.connections() == 2; }));
    RawClient third(server.port());
    CHECK(third.read_to_close());
  }
  REQUIRE(tests::eventually([&] { return server.connections() == 0; }));
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
}

HttpLimits limits_for_all() {
  HttpLimits limits;
  limits.caller.spares_this_machine = false;
  return limits;
}

TEST_CASE("one address cannot hold all connections, and room is given back") {
  HttpLimits limits = limits_for_all();
  limits.caller.connections = 2;
  TestServer server(limits);
  {
    RawClient first(server.port());
    RawClient second(server.port());
    REQUIRE(second.send(request("GET /events")));
    REQUIRE(second.read_until("retry"));
    REQUIRE(tests::eventually([&] { return server.connections() == 2; }));
    RawClient third(server.port());
    CHECK(third.read_to_close());
    CHECK(server.refusals().connections == 1);
  }
  REQUIRE(tests::eventually([&] { return server.connections() == 0; }));
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
}

TEST_CASE("an address that asks for too much work is told when to come again") {
  HttpLimits limits = limits_for_all();
  limits.caller.work_at_once = 50ms;
  limits.caller.work_share = 0.001;
  TestServer server(limits);
  REQUIRE(whole_answer(server, close_after("GET /slow")).starts_with("HTTP/1.1 200 "));
  const std::string refused = whole_answer(server, close_after("GET /"));
  CHECK(refused.starts_with("HTTP/1.1 429 "));
  CHECK(refused.find("\r\nRetry-After: ") != std::string::npos);
  CHECK(server.refusals().work == 1);
}

TEST_CASE("after ten wrong tokens an address is not listened to, the right one among them") {
  TestServer server;
  const auto write = [&](const std::string& token) {
    return whole_answer(server, request("POST /write",
                                        "Content-Length: 0\r\nConnection: close\r\n"
                                        "Authorization: Bearer " +
                                            token + "\r\n"));
  };
  CHECK(write("right").starts_with("HTTP/1.1 200 "));
  for (int i = 0; i < 10; ++i) CHECK(write("guess").starts_with("HTTP/1.1 401 "));
  for (const char* token : {"guess", "right"}) {
    const std::string refused = write(token);
    CHECK(refused.starts_with("HTTP/1.1 429 "));
    CHECK(refused.find("{\"error\":") != std::string::npos);
  }
  CHECK(server.refusals().wrong_tokens == 10);
  CHECK(server.refusals().tokens == 2);
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
}

TEST_CASE("a client that takes it compressed is sent less, and HEAD tells the same length") {
  const TestServer server;
  const std::string accepts = "Accept-Encoding: gzip\r\nConnection: close\r\n";
  const std::string text = whole_answer(server, request("GET /text", accepts));
  CHECK(text.find("\r\nContent-Encoding: gzip\r\n") != std::string::npos);
  CHECK(text.size() < 1500);
  const std::string head = whole_answer(server, request("HEAD /text", accepts));
  const auto length = [](const std::string& answer_text) {
    const auto at = answer_text.find("Content-Length: ");
    return answer_text.substr(at, answer_text.find('\r', at) - at);
  };
  CHECK(length(head) == length(text));
  CHECK(whole_answer(server, close_after("GET /text")).ends_with(std::string(10000, 'x')));
}

TEST_CASE("two hundred displays hear of every change, the latest one on arrival") {
  TestServer server;
  server.notify("first");
  std::vector<RawClient> displays;
  for (int i = 0; i < 200; ++i) {
    displays.emplace_back(server.port());
    REQUIRE(displays.back().send(request("GET /events")));
  }
  for (RawClient& display : displays) {
    REQUIRE(display.read_until("\r\n\r\nretry: 2000\n\nevent: board\ndata: first\n\n"));
  }
  CHECK(displays.front().received().find("Content-Type: text/event-stream\r\n") !=
        std::string::npos);
  server.notify("second");
  for (RawClient& display : displays) {
    CHECK(display.read_until("event: board\ndata: second\n\n"));
  }
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
  displays.clear();
  CHECK(tests::eventually([&] { return server.connections() == 0; }));
}

TEST_CASE("displays over their limit are told so, and pages are still served") {
  HttpLimits limits;
  limits.event_clients = 1;
  TestServer server(limits);
  RawClient display(server.port());
  REQUIRE(display.send(request("GET /events")));
  REQUIRE(display.read_until("retry"));
  CHECK(whole_answer(server, close_after("GET /events")).starts_with("HTTP/1.1 503 "));
  CHECK(whole_answer(server, close_after("GET /")).starts_with("HTTP/1.1 200 "));
}

TEST_CASE("a display that falls behind is dropped, the others are not") {
  TestServer server;
  RawClient stuck(server.port(), 4096);
  RawClient well(server.port());
  REQUIRE(stuck.send(request("GET /events")));
  REQUIRE(well.send(request("GET /events")));
  REQUIRE(tests::eventually([&] { return server.event_clients() == 2; }));
  const std::string news(1 << 20, 'n');
  for (int i = 0; i < 64 && server.event_clients() == 2; ++i) {
    server.notify(news + std::to_string(i) + ".");
    REQUIRE(well.read_until(std::to_string(i) + "."));
    well.forget();
  }
  CHECK(tests::eventually([&] { return server.event_clients() == 1; }));
  server.notify("after");
  CHECK(well.read_until("data: after\n\n"));
}

TEST_CASE("a quiet stream of events carries a comment now and then") {
  HttpLimits limits;
  limits.heartbeat = 50ms;
  TestServer server(limits);
  RawClient display(server.port());
  REQUIRE(display.send(request("GET /events")));
  CHECK(display.read_until("\n: still here\n\n"));
}

TEST_CASE("HEAD of the events answers and ends") {
  const TestServer server;
  const std::string text = whole_answer(server, close_after("HEAD /events"));
  CHECK(text.starts_with("HTTP/1.1 200 "));
  CHECK(text.find("text/event-stream") != std::string::npos);
}

TEST_CASE("the server ends while clients are in every state") {
  std::vector<RawClient> clients;
  {
    TestServer server;
    for (const std::string& start : {std::string(), std::string("GET / HT"), request("GET /a"),
                                     request("GET /events"), request("GET /large")}) {
      clients.emplace_back(server.port());
      REQUIRE(clients.back().send(start));
    }
    REQUIRE(clients[2].read_until("GET /a\n"));
    REQUIRE(tests::eventually([&] { return server.event_clients() == 1; }));
  }
  for (RawClient& client : clients) CHECK(client.read_to_close());
}

TEST_CASE("an address that cannot be served is named") {
  boost::asio::io_context context;
  const HttpServer first(context, "127.0.0.1", 0, answer);
  CHECK_THROWS_WITH(HttpServer(context, "127.0.0.1", first.port(), answer),
                    Catch::Contains("port " + std::to_string(first.port())) &&
                        Catch::Contains("another program has this port"));
  CHECK_THROWS_WITH(HttpServer(context, "the yard", 0, answer), Catch::Contains("the yard"));
}

TEST_CASE("data of several lines is one event, whatever ends its lines") {
  CHECK(event_text("board", "a\nb\r\nc\rd") ==
        "event: board\ndata: a\ndata: b\ndata: c\ndata: d\n\n");
}

}  // namespace
}  // namespace gley::daemon

#include "daemon/board/http_server.hpp"

// http_message.hpp has <utility>, which Boost 1.74's Asio needs and does not include.
#include <spdlog/spdlog.h>

#include <array>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/beast/core/bind_handler.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/error.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/string_body.hpp>
#include <boost/beast/http/write.hpp>
#include <deque>
#include <optional>
#include <set>
#include <stdexcept>

#include "daemon/board/http_policy.hpp"
#include "daemon/board/http_target.hpp"
#include "daemon/board/local_time.hpp"

namespace gley::daemon {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using asio::ip::tcp;
using boost::system::error_code;

namespace {

using SharedText = std::shared_ptr<const std::string>;
using HttpRequest = http::request<http::string_body>;
using HttpResponse = http::response<http::string_body>;

class Connection;

/// What the listener and its connections share.
struct Shared {
  HttpServer::Handler handler;
  HttpLimits limits;
  bool open = true;
  std::set<Connection*> connections;
  std::set<Connection*> event_clients;
  SharedText last_event;
};

/// One socket, counted in Shared for as long as it lives.
class Connection {
 public:
  Connection(beast::tcp_stream stream, std::shared_ptr<Shared> shared)
      : shared_(std::move(shared)), stream_(std::move(stream)) {
    shared_->connections.insert(this);
  }
  virtual ~Connection() {
    shared_->connections.erase(this);
    shared_->event_clients.erase(this);
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  virtual void send(const SharedText&) {}

  void close() {
    error_code ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_both, ignored);
    stream_.close();
  }

 protected:
  std::shared_ptr<Shared> shared_;
  beast::tcp_stream stream_;
};

std::string_view view(beast::string_view text) {
  return {text.data(), text.size()};
}

std::string now_text() {
  return http_date(std::chrono::floor<std::chrono::milliseconds>(std::chrono::system_clock::now()));
}

/// Sends events until the client leaves, fails or falls behind.
class EventClient final : public Connection, public std::enable_shared_from_this<EventClient> {
 public:
  EventClient(beast::tcp_stream stream, std::shared_ptr<Shared> shared)
      : Connection(std::move(stream), std::move(shared)) {
    shared_->event_clients.insert(this);
  }

  void start(const Response& response) {
    stream_.expires_never();
    watch();
    std::string head =
        "HTTP/1.1 200 OK\r\nConnection: close\r\nX-Accel-Buffering: no\r\nDate: " + now_text() +
        "\r\nContent-Type: " + response.content_type + "\r\n";
    for (const auto& [name, value] : response.headers)
      head.append(name).append(": ").append(value).append("\r\n");
    head += "\r\nretry: 2000\n\n";
    send(std::make_shared<const std::string>(std::move(head)));
    if (shared_->last_event) send(shared_->last_event);
  }

  void send(const SharedText& text) override {
    if (queue_.size() >= shared_->limits.queued_events) return close();
    queue_.push_back(text);
    if (queue_.size() == 1) write();
  }

 private:
  /// A pending read is how a client's leaving is noticed. It has nothing to say any more.
  void watch() {
    stream_.async_read_some(
        asio::buffer(unwanted_),
        [self = shared_from_this()](error_code, std::size_t) { self->close(); });
  }

  void write() {
    stream_.expires_after(shared_->limits.write_deadline);
    asio::async_write(stream_, asio::buffer(*queue_.front()),
                      [self = shared_from_this()](error_code error, std::size_t) {
                        if (error) return self->close();
                        self->queue_.pop_front();
                        if (!self->queue_.empty()) self->write();
                      });
  }

  std::deque<SharedText> queue_;
  std::array<char, 64> unwanted_{};
};

Response plain(int status, std::string text) {
  return {.status = status,
          .content_type = "text/plain; charset=utf-8",
          .body = std::move(text),
          .headers = {},
          .event_stream = false};
}

Request to_request(const HttpRequest& message, HttpTarget target) {
  return {.method = std::string(view(message.method_string())),
          .path = std::move(target.path),
          .query = std::move(target.query),
          .accept = std::string(view(message[http::field::accept])),
          .authorization = std::string(view(message[http::field::authorization])),
          .if_none_match = std::string(view(message[http::field::if_none_match])),
          .host = std::string(view(message[http::field::host])),
          .origin = std::string(view(message[http::field::origin])),
          .fetch_site = std::string(view(message["Sec-Fetch-Site"])),
          .content_type = std::string(view(message[http::field::content_type])),
          .body = message.body()};
}

Response guarded(const Shared& shared, const Request& request) {
  try {
    return shared.handler(request);
  } catch (const std::exception& fault) {
    spdlog::error("http: {} {}: {}", request.method, request.path, fault.what());
    return plain(500, "The daemon could not make this page; its log says why.\n");
  }
}

Response answer(const Shared& shared, const HttpRequest& message) {
  auto target = parse_target(view(message.target()));
  const bool named = message.version() < 11 || message.count(http::field::host) == 1;
  if (!target || !named) {
    Response response = plain(
        400, named ? "This address is not understood.\n" : "The request does not name its host.\n");
    finish({}, response);
    return response;
  }
  const Request request = to_request(message, *std::move(target));
  Response response = guarded(shared, request);
  if (response.event_stream && shared.event_clients.size() >= shared.limits.event_clients) {
    response = plain(503, "Too many displays are listening already.\n");
  }
  finish(request, response);
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

Response refusal(error_code error) {
  if (error == http::error::header_limit || error == http::error::buffer_overflow) {
    return plain(431, "The request's headers are too large.\n");
  }
  if (error == http::error::body_limit) return plain(413, "The request's body is too large.\n");
  return plain(400, "This is not an HTTP request.\n");
}

bool is_malformed(error_code error) {
  return error.category() == make_error_code(http::error::bad_method).category() &&
         error != http::error::end_of_stream && error != http::error::partial_message;
}

/// Reads a request, answers it, and so on until either side has had enough.
class Session final : public Connection, public std::enable_shared_from_this<Session> {
 public:
  using Connection::Connection;

  void read() {
    parser_.emplace();
    parser_->header_limit(shared_->limits.header_bytes);
    parser_->body_limit(shared_->limits.body_bytes);
    stream_.expires_after(shared_->limits.read_deadline);
    http::async_read(stream_, buffer_, *parser_,
                     beast::bind_front_handler(&Session::on_read, shared_from_this()));
  }

 private:
  void on_read(error_code error, std::size_t) {
    if (!shared_->open) return close();
    if (is_malformed(error)) return refuse(error);
    if (error) return close();
    const HttpRequest& request = parser_->get();
    Response response = answer(*shared_, request);
    if (response.event_stream && request.method() == http::verb::get) return listen(response);
    message_ = to_message(std::move(response), request);
    message_.keep_alive(request.keep_alive());
    write();
  }

  void listen(const Response& response) {
    std::make_shared<EventClient>(std::move(stream_), shared_)->start(response);
  }

  void refuse(error_code error) {
    Response response = refusal(error);
    finish({}, response);
    message_ = to_message(std::move(response), {http::verb::get, "/", 11});
    message_.keep_alive(false);
    write();
  }

  void write() {
    stream_.expires_after(shared_->limits.write_deadline);
    http::async_write(stream_, message_,
                      beast::bind_front_handler(&Session::on_write, shared_from_this()));
  }

  void on_write(error_code error, std::size_t) {
    if (!shared_->open) return close();
    if (!error && message_.keep_alive()) return read();
    error_code ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    stream_.expires_after(lingering_deadline);
    drain();
  }

  /// Closing on unread bytes resets the connection, and the client may lose the answer with it.
  void drain() {
    stream_.async_read_some(asio::buffer(unwanted_),
                            [self = shared_from_this()](error_code error, std::size_t bytes) {
                              self->drained_ += bytes;
                              if (error || self->drained_ > most_drained) return self->close();
                              self->drain();
                            });
  }

  static constexpr std::chrono::seconds lingering_deadline{2};
  static constexpr std::size_t most_drained = std::size_t{1} << 20;

  beast::flat_buffer buffer_{65536};
  std::optional<http::request_parser<http::string_body>> parser_;
  HttpResponse message_;
  std::array<char, 4096> unwanted_{};
  std::size_t drained_ = 0;
};

tcp::endpoint to_endpoint(const std::string& address, std::uint16_t port) {
  error_code error;
  const auto parsed = asio::ip::make_address(address, error);
  if (error) {
    throw std::runtime_error("http.address \"" + address +
                             "\" is not a numeric address such as 127.0.0.1 or ::1");
  }
  return {parsed, port};
}

tcp::acceptor bound_acceptor(asio::io_context& context, const tcp::endpoint& endpoint) {
  try {
    return {context, endpoint, true};
  } catch (const boost::system::system_error& fault) {
    throw std::runtime_error("cannot serve pages on " + endpoint.address().to_string() + " port " +
                             std::to_string(endpoint.port()) + ": " + fault.code().message());
  }
}

/// Lines of data, however they end (HTML standard: CR, LF or both).
std::string data_lines(std::string_view data) {
  std::string out = "data: ";
  for (std::size_t i = 0; i < data.size(); ++i) {
    const bool pair = data[i] == '\r' && i + 1 < data.size() && data[i + 1] == '\n';
    if (pair) continue;
    out += data[i] == '\n' || data[i] == '\r' ? "\ndata: " : std::string(1, data[i]);
  }
  return out + '\n';
}

}  // namespace

std::string event_text(std::string_view name, std::string_view data) {
  return "event: " + std::string(name) + '\n' + data_lines(data) + '\n';
}

/// Accepts, and beats for the event clients.
class HttpServer::Listener : public std::enable_shared_from_this<Listener> {
 public:
  Listener(asio::io_context& context, const tcp::endpoint& endpoint, Handler handler,
           const HttpLimits& limits)
      : acceptor_(bound_acceptor(context, endpoint)), retry_(context), heartbeat_(context) {
    shared_->handler = std::move(handler);
    shared_->limits = limits;
  }

  void start() {
    accept();
    beat();
  }

  void stop() {
    shared_->open = false;
    error_code ignored;
    acceptor_.close(ignored);
    retry_.cancel();
    heartbeat_.cancel();
    for (Connection* connection : shared_->connections) connection->close();
  }

  void notify(std::string_view data) {
    shared_->last_event = std::make_shared<const std::string>(event_text("board", data));
    send_all(shared_->last_event);
  }

  [[nodiscard]] std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
  [[nodiscard]] const Shared& shared() const { return *shared_; }

 private:
  void accept() {
    acceptor_.async_accept([self = shared_from_this()](error_code error, tcp::socket socket) {
      if (!self->shared_->open) return;
      if (error) return self->accept_later(error);
      self->admit(std::move(socket));
      self->accept();
    });
  }

  void admit(tcp::socket socket) {
    if (shared_->connections.size() >= shared_->limits.connections) return;  // closes it
    std::make_shared<Session>(beast::tcp_stream(std::move(socket)), shared_)->read();
  }

  /// Out of descriptors, most likely: trying again at once would only burn the processor.
  void accept_later(error_code error) {
    spdlog::warn("http: cannot take a connection: {}; trying again each second", error.message());
    retry_.expires_after(std::chrono::seconds{1});
    retry_.async_wait([self = shared_from_this()](error_code) {
      if (self->shared_->open) self->accept();
    });
  }

  void beat() {
    heartbeat_.expires_after(shared_->limits.heartbeat);
    heartbeat_.async_wait([self = shared_from_this()](error_code error) {
      if (error || !self->shared_->open) return;
      self->send_all(std::make_shared<const std::string>(": still here\n\n"));
      self->beat();
    });
  }

  void send_all(const SharedText& text) {
    for (Connection* client : shared_->event_clients) client->send(text);
  }

  std::shared_ptr<Shared> shared_ = std::make_shared<Shared>();
  tcp::acceptor acceptor_;
  asio::steady_timer retry_;
  asio::steady_timer heartbeat_;
};

HttpServer::HttpServer(asio::io_context& context, const std::string& address, std::uint16_t port,
                       Handler handler, HttpLimits limits)
    : listener_(std::make_shared<Listener>(context, to_endpoint(address, port), std::move(handler),
                                           limits)) {
  listener_->start();
}

HttpServer::~HttpServer() {
  listener_->stop();
}

std::uint16_t HttpServer::port() const {
  return listener_->port();
}

void HttpServer::notify(std::string_view data) {
  listener_->notify(data);
}

std::size_t HttpServer::connections() const {
  return listener_->shared().connections.size();
}

std::size_t HttpServer::event_clients() const {
  return listener_->shared().event_clients.size();
}

}  // namespace gley::daemon

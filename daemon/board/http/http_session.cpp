#include "daemon/board/http/http_session.hpp"

#include <spdlog/spdlog.h>

#include <array>
#include <boost/beast/core/bind_handler.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http/parser.hpp>
#include <boost/beast/http/read.hpp>
#include <boost/beast/http/write.hpp>
#include <deque>
#include <optional>

namespace gley::daemon {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using asio::ip::tcp;
using boost::system::error_code;
using SharedText = std::shared_ptr<const std::string>;

/// One socket, counted in HttpShared for as long as it lives.
class Connection {
 public:
  Connection(beast::tcp_stream stream, std::string caller, std::shared_ptr<HttpShared> shared)
      : shared_(std::move(shared)), stream_(std::move(stream)), caller_(std::move(caller)) {
    shared_->connections.insert(this);
    shared_->callers.connected(caller_, std::chrono::steady_clock::now());
  }
  virtual ~Connection() {
    shared_->connections.erase(this);
    shared_->event_clients.erase(this);
    shared_->callers.left(caller_);
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
  std::shared_ptr<HttpShared> shared_;
  beast::tcp_stream stream_;
  std::string caller_;
};

namespace {

/// Sends events until the client leaves, fails or falls behind.
class EventClient final : public Connection, public std::enable_shared_from_this<EventClient> {
 public:
  EventClient(beast::tcp_stream stream, std::string caller, std::shared_ptr<HttpShared> shared)
      : Connection(std::move(stream), std::move(caller), std::move(shared)) {
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
    const bool may_listen = shared_->event_clients.size() < shared_->limits.event_clients;
    Response response = shared_->answerer.answer(request, caller_, may_listen);
    if (response.event_stream && request.method() == http::verb::get) return listen(response);
    message_ = to_message(std::move(response), request);
    message_.keep_alive(request.keep_alive());
    write();
  }

  void listen(const Response& response) {
    std::make_shared<EventClient>(std::move(stream_), caller_, shared_)->start(response);
  }

  void refuse(error_code error) {
    message_ = to_message(refusal_of(error), {http::verb::get, "/", 11});
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

std::string caller_of(const tcp::socket& socket) {
  error_code error;
  const auto peer = socket.remote_endpoint(error);
  return error ? std::string("unknown") : caller_address(peer.address().to_string());
}

}  // namespace

void admit(tcp::socket socket, const std::shared_ptr<HttpShared>& shared) {
  const std::string caller = caller_of(socket);
  const bool over = !shared->callers.may_connect(caller);
  if (!over && shared->connections.size() < shared->limits.connections)
    return std::make_shared<Session>(beast::tcp_stream(std::move(socket)), caller, shared)->read();
  ++shared->refusals.connections;  // and the socket closes here
  if (over && shared->callers.worth_naming(caller, std::chrono::steady_clock::now()))
    spdlog::warn("http: {} holds as many connections as one address may; more are closed", caller);
}

void close_all(HttpShared& shared) {
  for (Connection* connection : shared.connections) connection->close();
}

void send_to_event_clients(HttpShared& shared, const SharedText& text) {
  for (Connection* client : shared.event_clients) client->send(text);
}

}  // namespace gley::daemon

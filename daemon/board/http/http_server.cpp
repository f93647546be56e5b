#include "daemon/board/http/http_server.hpp"

#include <spdlog/spdlog.h>

#include <boost/asio/steady_timer.hpp>
#include <stdexcept>

#include "daemon/board/http/http_session.hpp"

namespace gley::daemon {

namespace asio = boost::asio;
using asio::ip::tcp;
using boost::system::error_code;

namespace {

tcp::endpoint to_endpoint(const std::string& address, std::uint16_t port) {
  error_code error;
  const auto parsed = asio::ip::make_address(address, error);
  if (error) {
    throw std::runtime_error("http.address \"" + address +
                             "\" is not a numeric address such as 127.0.0.1 or ::1");
  }
  return {parsed, port};
}

const char* what_to_do(const error_code& fault) {
  if (fault == asio::error::address_in_use)
    return "; another program has this port: give another one under [http]";
  if (fault == asio::error::access_denied)
    return "; ports under 1024 are for root alone: give another one under [http]";
  if (fault == boost::system::errc::address_not_available)
    return "; this machine has no such address: see address under [http]";
  return "";
}

tcp::acceptor bound_acceptor(asio::io_context& context, const tcp::endpoint& endpoint) {
  try {
    return {context, endpoint, true};
  } catch (const boost::system::system_error& fault) {
    throw std::runtime_error("cannot serve pages on " + endpoint.address().to_string() + " port " +
                             std::to_string(endpoint.port()) + ": " + fault.code().message() +
                             what_to_do(fault.code()));
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
      : shared_(std::make_shared<HttpShared>(std::move(handler), limits)),
        acceptor_(bound_acceptor(context, endpoint)),
        retry_(context),
        heartbeat_(context) {}

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
    close_all(*shared_);
  }

  void notify(std::string_view data) {
    shared_->last_event = std::make_shared<const std::string>(event_text("board", data));
    send_to_event_clients(*shared_, shared_->last_event);
  }

  [[nodiscard]] std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
  [[nodiscard]] const HttpShared& shared() const { return *shared_; }

 private:
  void accept() {
    acceptor_.async_accept([self = shared_from_this()](error_code error, tcp::socket socket) {
      if (!self->shared_->open) return;
      if (error) return self->accept_later(error);
      admit(std::move(socket), self->shared_);
      self->accept();
    });
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
      send_to_event_clients(*self->shared_,
                            std::make_shared<const std::string>(": still here\n\n"));
      self->beat();
    });
  }

  std::shared_ptr<HttpShared> shared_;
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

HttpRefusals HttpServer::refusals() const {
  return listener_->shared().refusals;
}

std::size_t HttpServer::event_clients() const {
  return listener_->shared().event_clients.size();
}

}  // namespace gley::daemon

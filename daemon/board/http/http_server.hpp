#pragma once
#include <chrono>
#include <cstddef>
#include <cstdint>
#include <functional>
#include <memory>
#include <string>
#include <string_view>

#include "daemon/board/http/callers.hpp"
#include "daemon/board/http/http_message.hpp"

namespace boost::asio {
class io_context;
}

namespace gley::daemon {

struct HttpRefusals;

/// What all clients, and each of them, may cost. Larger values hold more memory and connections for
/// slow clients.
struct HttpLimits {
  std::uint32_t header_bytes = 8192;
  std::uint64_t body_bytes = 16384;
  std::size_t connections = 256;
  /// Fewer than `connections`, so that displays left open never keep a page or a probe out.
  std::size_t event_clients = 224;
  std::size_t queued_events = 16;  ///< a client this far behind is dropped; it reconnects by itself
  std::chrono::milliseconds read_deadline{15'000};  ///< for a whole request, idling included
  std::chrono::milliseconds write_deadline{30'000};
  std::chrono::milliseconds heartbeat{15'000};  ///< between comments to event clients
  CallerLimits caller;                          ///< what one address may take of all this
};

/// HTTP/1.1 for the board: whole answers, and server-sent events to those that stay.
/// All of it, the handler too, runs on the thread of the io_context; call it from no other.
class HttpServer {
 public:
  using Handler = std::function<Response(const Request&)>;

  /// Listens at once; port 0 takes a free one. Throws std::runtime_error naming address and port.
  HttpServer(boost::asio::io_context& context, const std::string& address, std::uint16_t port,
             Handler handler, HttpLimits limits = {});
  ~HttpServer();
  HttpServer(const HttpServer&) = delete;
  HttpServer& operator=(const HttpServer&) = delete;

  [[nodiscard]] std::uint16_t port() const;

  /// Sends `event: board` with this data to every event client, and to those yet to come first.
  void notify(std::string_view data);

  [[nodiscard]] std::size_t connections() const;
  [[nodiscard]] std::size_t event_clients() const;
  [[nodiscard]] HttpRefusals refusals() const;

 private:
  class Listener;
  std::shared_ptr<Listener> listener_;
};

/// One event in the form of the HTML standard, "Server-sent events".
[[nodiscard]] std::string event_text(std::string_view name, std::string_view data);

}  // namespace gley::daemon

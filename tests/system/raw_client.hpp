#pragma once
#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <chrono>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>

#include "tests/system/process.hpp"

namespace gley::tests {

/// A TCP client that sends exactly what it is told and shows exactly what came.
class RawClient {
 public:
  explicit RawClient(std::uint16_t port, int receive_buffer_bytes = 0)
      : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    if (receive_buffer_bytes > 0) {
      ::setsockopt(socket_, SOL_SOCKET, SO_RCVBUF, &receive_buffer_bytes,
                   sizeof receive_buffer_bytes);
    }
    sockaddr_in address{};
    address.sin_family = AF_INET;
    address.sin_port = htons(port);
    address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    if (::connect(socket_, reinterpret_cast<sockaddr*>(&address), sizeof address) != 0) {
      ::close(socket_);
      throw std::runtime_error("cannot connect to the server under test");
    }
  }
  ~RawClient() {
    if (socket_ >= 0) ::close(socket_);
  }
  RawClient(RawClient&& other) noexcept
      : socket_(std::exchange(other.socket_, -1)), received_(std::move(other.received_)) {}
  RawClient(const RawClient&) = delete;
  RawClient& operator=(const RawClient&) = delete;
  RawClient& operator=(RawClient&&) = delete;

  /// False once the server has closed the connection.
  bool send(std::string_view text) {
    while (!text.empty()) {
      const ssize_t sent = ::send(socket_, text.data(), text.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      text.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }

  /// Reads until `words` have come, the server closes, or the time is up.
  bool read_until(std::string_view words) {
    const auto end = std::chrono::steady_clock::now() + patience;
    std::size_t looked_at = 0;
    while (received_.find(words, looked_at) == std::string::npos) {
      looked_at = received_.size() < words.size() ? 0 : received_.size() - words.size();
      if (closed_ || !receive(end)) return false;
    }
    return true;
  }

  /// Reads to the end; false if the server has not closed in time.
  bool read_to_close() {
    const auto end = std::chrono::steady_clock::now() + patience;
    while (!closed_ && receive(end)) {
    }
    return closed_;
  }

  [[nodiscard]] const std::string& received() const { return received_; }
  void forget() { received_.clear(); }

 private:
  bool receive(std::chrono::steady_clock::time_point end) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(
        end - std::chrono::steady_clock::now());
    pollfd ready{.fd = socket_, .events = POLLIN, .revents = 0};
    if (left.count() <= 0 || ::poll(&ready, 1, static_cast<int>(left.count())) <= 0) return false;
    char bytes[1 << 16];
    const ssize_t count = ::recv(socket_, bytes, sizeof bytes, 0);
    if (count <= 0) {
      closed_ = true;
      return true;
    }
    received_.append(bytes, static_cast<std::size_t>(count));
    return true;
  }

  int socket_;
  bool closed_ = false;
  std::string received_;
};

struct HttpQuestion {
  std::string line;  ///< "GET /path"
  std::string host = "localhost";
  std::string headers = {};  ///< more of them, each ended by CRLF
  std::string body = {};
};

struct HttpAnswer {
  int status = 0;  ///< 0: no answer
  std::string head;
  std::string body;
};

/// Asks on a connection of its own.
[[nodiscard]] inline HttpAnswer http_ask(std::uint16_t port, const HttpQuestion& question) try {
  RawClient client(port);
  client.send(question.line + " HTTP/1.1\r\nHost: " + question.host + "\r\nConnection: close\r\n" +
              question.headers + "\r\n" + question.body);
  if (!client.read_to_close()) return {};
  const std::string& text = client.received();
  const auto end = text.find("\r\n\r\n");
  if (end == std::string::npos || !text.starts_with("HTTP/1.1 ")) return {};
  return {std::stoi(text.substr(9, 3)), text.substr(0, end), text.substr(end + 4)};
} catch (const std::runtime_error&) {
  return {};  // nobody listens there yet
}

}  // namespace gley::tests

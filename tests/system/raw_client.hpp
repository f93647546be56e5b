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

namespace gley::daemon {

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

  /// Reads until `words` have come, the server closes, or `patience` is over.
  bool read_until(std::string_view words,
                  std::chrono::seconds patience = std::chrono::seconds{10}) {
    const auto end = std::chrono::steady_clock::now() + patience;
    while (received_.find(words) == std::string::npos) {
      if (closed_ || !receive(end)) return false;
    }
    return true;
  }

  /// Reads to the end; false if the server has not closed within `patience`.
  bool read_to_close(std::chrono::seconds patience = std::chrono::seconds{10}) {
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
    char bytes[4096];
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

}  // namespace gley::daemon

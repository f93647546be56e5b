#include "daemon/bus/broker_socket.hpp"

#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>

#include <cstring>
#include <filesystem>
#include <optional>
#include <string>
#include <system_error>

namespace gley::daemon {
namespace {

/// Of the other end; nothing unless it is a connected TCP socket.
std::optional<std::uint16_t> peer_port(int descriptor) {
  sockaddr_storage peer{};
  socklen_t size = sizeof(peer);
  if (::getpeername(descriptor, reinterpret_cast<sockaddr*>(&peer), &size) != 0) return {};
  // Both kinds of address have the port in the same place.
  if (peer.ss_family != AF_INET && peer.ss_family != AF_INET6) return {};
  sockaddr_in with_port{};
  std::memcpy(&with_port, &peer, sizeof(with_port));
  return ntohs(with_port.sin_port);
}

/// Where that fails the connection is as slow as before, and no worse.
void switch_on(int descriptor, int option) {
  const int on = 1;
  (void)::setsockopt(descriptor, IPPROTO_TCP, option, &on, sizeof(on));
}

}  // namespace

void BrokerSocket::connected(std::uint16_t port) {
  descriptors_.clear();
  std::error_code no_proc;
  for (const auto& entry : std::filesystem::directory_iterator("/proc/self/fd", no_proc)) {
    const int descriptor = std::stoi(entry.path().filename().string());
    if (peer_port(descriptor) != port) continue;
    switch_on(descriptor, TCP_NODELAY);
    descriptors_.push_back(descriptor);
  }
}

void BrokerSocket::acknowledge() const {
  for (const int descriptor : descriptors_) switch_on(descriptor, TCP_QUICKACK);
}

}  // namespace gley::daemon

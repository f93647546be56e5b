#include "daemon/bus/broker_socket.hpp"

#include <netinet/in.h>
#include <netinet/tcp.h>
#include <sys/socket.h>
#include <unistd.h>

#include <catch2/catch.hpp>

using gley::daemon::BrokerSocket;

namespace {

/// A TCP server on a free port, and one connection to it.
class Connected {
 public:
  Connected()
      : server_(::socket(AF_INET, SOCK_STREAM, 0)), client_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in here{};
    here.sin_family = AF_INET;
    here.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    socklen_t size = sizeof(here);
    auto* const address = reinterpret_cast<sockaddr*>(&here);
    REQUIRE(::bind(server_, address, size) == 0);
    REQUIRE(::listen(server_, 1) == 0);
    REQUIRE(::getsockname(server_, address, &size) == 0);
    REQUIRE(::connect(client_, address, size) == 0);
    port_ = ntohs(here.sin_port);
  }
  ~Connected() {
    ::close(client_);
    ::close(server_);
  }
  Connected(const Connected&) = delete;
  Connected& operator=(const Connected&) = delete;

  [[nodiscard]] std::uint16_t port() const { return port_; }

  [[nodiscard]] bool sends_at_once() const {
    int on = 0;
    socklen_t size = sizeof(on);
    REQUIRE(::getsockopt(client_, IPPROTO_TCP, TCP_NODELAY, &on, &size) == 0);
    return on != 0;
  }

 private:
  int server_;
  int client_;
  std::uint16_t port_ = 0;
};

}  // namespace

TEST_CASE("small packets to the broker wait for nothing, and no other connection is touched") {
  const Connected broker;
  const Connected other;
  REQUIRE_FALSE(broker.sends_at_once());
  BrokerSocket socket;
  socket.connected(broker.port());
  CHECK(broker.sends_at_once());
  CHECK_FALSE(other.sends_at_once());
}

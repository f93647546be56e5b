#pragma once
#include <cstdint>
#include <vector>

namespace gley::daemon {

/// The broker's connection as the kernel sees it. The MQTT library does not hand it out, so it is
/// all of this process's TCP sockets whose other end has the broker's port. Left alone, each end
/// keeps a small packet back until the one before is acknowledged (Nagle, RFC 896) and delays that
/// acknowledgement (RFC 1122, section 4.2.3.2): 40 ms a time on Linux. One thread.
class BrokerSocket {
 public:
  /// Small packets go at once from now on. To be called after each connect.
  void connected(std::uint16_t port);

  /// What came is acknowledged at once, so that the broker sends what it keeps back. The kernel
  /// falls back after a while: to be called whenever something came.
  void acknowledge() const;

 private:
  /// One that was closed since may be another socket or file by now; neither minds.
  std::vector<int> descriptors_;
};

}  // namespace gley::daemon

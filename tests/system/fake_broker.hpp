#pragma once
#include <atomic>
#include <chrono>
#include <cstdint>
#include <string>
#include <thread>
#include <vector>

namespace gley::tests {

/// How a connection ends, and where: so many messages whole, then so many bytes of the next.
struct Cut {
  enum class Way {
    close,  ///< as a broker that stops
    reset,  ///< as a box on the way that forgets the connection; what the client sent is lost
    stall,  ///< nothing more comes, until the client goes or `stalls_for` is over
  };
  int whole_messages = 0;
  std::size_t bytes = 0;
  Way way = Way::close;
  std::chrono::seconds stalls_for{1};
};

/// A broker of MQTT 5 with one client and one session, as much of it as a test of a bad network
/// needs. It holds messages for the client from the start, hands them out at QoS 1 in order, again
/// with DUP until they are acknowledged, and cuts one connection after the other as it is told;
/// when the cuts are used up it behaves. What the client says of its own state on the first
/// connection is never acknowledged. A thread of its own; the getters are for any thread.
class FakeBroker {
 public:
  FakeBroker(std::string topic, std::vector<std::string> payloads, std::vector<Cut> cuts);
  ~FakeBroker();
  FakeBroker(const FakeBroker&) = delete;
  FakeBroker& operator=(const FakeBroker&) = delete;

  [[nodiscard]] std::uint16_t port() const { return port_; }
  [[nodiscard]] int connections() const { return connections_; }
  /// Connections on which a message was broken off.
  [[nodiscard]] int cuts_made() const { return cuts_made_; }
  [[nodiscard]] int acknowledged() const { return acknowledged_; }
  [[nodiscard]] int sent_again() const { return sent_again_; }
  /// Times the client said that it listens, and of them those when it did not yet.
  [[nodiscard]] int online() const { return online_; }
  [[nodiscard]] int online_too_soon() const { return online_too_soon_; }

 private:
  struct Packet {
    std::uint8_t head = 0;
    std::string body;
  };

  void run();
  void serve(int client);
  [[nodiscard]] bool read_packets(int client);
  [[nodiscard]] bool answer(int client, const Packet& packet);
  [[nodiscard]] bool answer_publish(int client, const Packet& packet);
  [[nodiscard]] bool send_next(int client);
  [[nodiscard]] std::string packet_of(std::size_t message) const;
  void break_off(int client, const Cut& cut);

  const std::string topic_;
  const std::vector<std::string> payloads_;
  std::vector<Cut> cuts_;  ///< still to come, the next one last
  int listener_ = -1;
  std::uint16_t port_ = 0;
  std::atomic<bool> stopping_ = false;
  std::atomic<int> connections_ = 0;
  std::atomic<int> cuts_made_ = 0;
  std::atomic<int> acknowledged_ = 0;
  std::atomic<int> sent_again_ = 0;
  std::atomic<int> online_ = 0;
  std::atomic<int> online_too_soon_ = 0;

  // The thread's own.
  std::vector<bool> is_acknowledged_;
  std::vector<bool> was_sent_;
  std::string received_;         ///< of the connection that stands
  bool subscribed_ = false;      ///< on it
  std::size_t next_ = 0;         ///< the message to hand out on it
  int whole_on_connection_ = 0;  ///< messages handed out on it
  std::thread thread_;
};

}  // namespace gley::tests

#include "tests/system/fake_broker.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <algorithm>
#include <stdexcept>

namespace gley::tests {
namespace {

// Control packets of MQTT 5.0 (OASIS, 2019), table 2-1, in the upper half of the first byte.
constexpr int connect = 1, publish = 3, acknowledge = 4, subscribe = 8, unsubscribe = 10, ping = 12,
              disconnect = 14;
constexpr std::size_t most_on_the_way = 20;
constexpr int tick_ms = 5;

std::string two_bytes(std::size_t number) {
  return {static_cast<char>(number >> 8U), static_cast<char>(number & 0xFFU)};
}

std::size_t number_at(const std::string& bytes, std::size_t at) {
  return static_cast<std::uint8_t>(bytes.at(at)) * 256U +
         static_cast<std::uint8_t>(bytes.at(at + 1));
}

/// A packet with its length (1.5.5, variable byte integer).
std::string packet(int head, const std::string& body) {
  std::string text{static_cast<char>(head)};
  std::size_t length = body.size();
  do {
    const std::size_t rest = length / 128;
    text += static_cast<char>(length % 128 + (rest > 0 ? 128 : 0));
    length = rest;
  } while (length > 0);
  return text + body;
}

bool send_all(int client, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(client, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

bool readable(int socket, int for_ms) {
  pollfd ready{.fd = socket, .events = POLLIN, .revents = 0};
  return ::poll(&ready, 1, for_ms) > 0;
}

}  // namespace

FakeBroker::FakeBroker(std::string topic, std::vector<std::string> payloads, std::vector<Cut> cuts)
    : topic_(std::move(topic)),
      payloads_(std::move(payloads)),
      cuts_(cuts.rbegin(), cuts.rend()),
      listener_(::socket(AF_INET, SOCK_STREAM | SOCK_CLOEXEC, 0)),
      is_acknowledged_(payloads_.size()),
      was_sent_(payloads_.size()) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  socklen_t size = sizeof address;
  auto* const any = reinterpret_cast<sockaddr*>(&address);
  if (::bind(listener_, any, size) != 0 || ::listen(listener_, 4) != 0 ||
      ::getsockname(listener_, any, &size) != 0)
    throw std::runtime_error("the fake broker cannot listen");
  port_ = ntohs(address.sin_port);
  thread_ = std::thread([this] { run(); });
}

FakeBroker::~FakeBroker() {
  stopping_ = true;
  thread_.join();
  ::close(listener_);
}

void FakeBroker::run() {
  while (!stopping_) {
    if (!readable(listener_, tick_ms)) continue;
    const int client = ::accept4(listener_, nullptr, nullptr, SOCK_CLOEXEC);
    if (client < 0) continue;
    received_.clear();
    subscribed_ = false;
    next_ = 0;
    whole_on_connection_ = 0;
    serve(client);
    ::close(client);
  }
}

void FakeBroker::serve(int client) {
  while (!stopping_) {
    if (readable(client, tick_ms) && !read_packets(client)) return;
    while (subscribed_ && next_ < payloads_.size()) {
      const auto on_the_way = static_cast<std::size_t>(
          std::count(was_sent_.begin(), was_sent_.begin() + static_cast<long>(next_), true) -
          std::count(is_acknowledged_.begin(), is_acknowledged_.begin() + static_cast<long>(next_),
                     true));
      if (on_the_way >= most_on_the_way) break;
      if (is_acknowledged_[next_]) {
        ++next_;
        continue;
      }
      if (!cuts_.empty() && whole_on_connection_ >= cuts_.back().whole_messages) {
        const Cut cut = cuts_.back();
        cuts_.pop_back();
        break_off(client, cut);
        return;
      }
      if (!send_next(client)) return;
    }
  }
}

bool FakeBroker::read_packets(int client) {
  char bytes[4096];
  const ssize_t count = ::recv(client, bytes, sizeof bytes, 0);
  if (count <= 0) return false;
  received_.append(bytes, static_cast<std::size_t>(count));
  for (;;) {
    std::size_t at = 1, length = 0, scale = 1;
    bool whole = false;
    while (at < received_.size() && !whole) {
      const auto byte = static_cast<std::uint8_t>(received_[at++]);
      length += (byte % 128U) * scale;
      scale *= 128;
      whole = byte < 128;
    }
    if (!whole || received_.size() < at + length) return true;
    const Packet packet{static_cast<std::uint8_t>(received_[0]), received_.substr(at, length)};
    received_.erase(0, at + length);
    if (!answer(client, packet)) return false;
  }
}

bool FakeBroker::answer(int client, const Packet& packet) {
  const std::string id = packet.body.substr(0, 2);
  switch (packet.head >> 4U) {
    case connect: {
      const char session_present = connections_++ > 0 ? 1 : 0;
      return send_all(client, tests::packet(0x20, {session_present, 0, 0}));
    }
    case subscribe:
      subscribed_ = true;
      return send_all(client, tests::packet(0x90, id + std::string{0, 1}));
    case unsubscribe:
      return send_all(client, tests::packet(0xB0, id + std::string{0, 0}));
    case publish:
      return answer_publish(client, packet);
    case acknowledge: {
      const std::size_t message = number_at(packet.body, 0) - 1;
      if (message < payloads_.size() && !is_acknowledged_[message]) {
        is_acknowledged_[message] = true;
        ++acknowledged_;
      }
      return true;
    }
    case ping:
      return send_all(client, tests::packet(0xD0, ""));
    default:
      return (packet.head >> 4U) != disconnect;
  }
}

/// Acknowledges it at QoS 1; what the client says to itself, its mark, comes back to it at QoS 0.
bool FakeBroker::answer_publish(int client, const Packet& packet) {
  const bool has_id = (packet.head & 0x06U) != 0;
  const std::size_t id_at = 2 + number_at(packet.body, 0);
  const std::size_t behind_id = id_at + (has_id ? 2 : 0);
  const std::string topic = packet.body.substr(2, id_at - 2);
  const bool is_state = topic.ends_with("/state");
  if (is_state && packet.body.ends_with("online")) {
    ++online_;
    online_too_soon_ += subscribed_ ? 0 : 1;
  }
  const bool acknowledges = has_id && !(is_state && connections_ == 1);
  if (acknowledges && !send_all(client, tests::packet(0x40, packet.body.substr(id_at, 2))))
    return false;
  if (!topic.ends_with("/mark")) return true;
  return send_all(
      client, tests::packet(0x30, packet.body.substr(0, id_at) + packet.body.substr(behind_id)));
}

std::string FakeBroker::packet_of(std::size_t message) const {
  const int head = was_sent_[message] ? 0x3A : 0x32;  // QoS 1, DUP if again (3.3.1)
  return packet(
      head, two_bytes(topic_.size()) + topic_ + two_bytes(message + 1) + '\0' + payloads_[message]);
}

bool FakeBroker::send_next(int client) {
  const std::string bytes = packet_of(next_);
  sent_again_ += was_sent_[next_] ? 1 : 0;
  was_sent_[next_++] = true;
  ++whole_on_connection_;
  return send_all(client, bytes);
}

void FakeBroker::break_off(int client, const Cut& cut) {
  const std::string bytes = packet_of(next_);
  was_sent_[next_] = true;
  ++cuts_made_;
  (void)send_all(client, std::string_view(bytes).substr(0, std::min(cut.bytes, bytes.size() - 1)));
  if (cut.way == Cut::Way::reset) {
    const linger at_once{.l_onoff = 1, .l_linger = 0};  // close then sends RST (socket(7))
    ::setsockopt(client, SOL_SOCKET, SO_LINGER, &at_once, sizeof at_once);
  }
  if (cut.way != Cut::Way::stall) return;
  const auto end = std::chrono::steady_clock::now() + cut.stalls_for;
  char unheard[4096];
  while (!stopping_ && std::chrono::steady_clock::now() < end)
    if (readable(client, tick_ms) && ::recv(client, unheard, sizeof unheard, 0) <= 0) return;
}

}  // namespace gley::tests

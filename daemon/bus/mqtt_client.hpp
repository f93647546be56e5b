#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/bus/outbox.hpp"
#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// A message as the broker delivered it; views live only during the call.
struct Message {
  std::string_view topic;
  std::string_view payload;
  /// It may have waited in the broker, so its arrival says nothing about its time.
  bool timeless_is_unknown = false;
};

/// What the owner does on events. All but `on_message` are run through `post`, and may be absent.
struct MqttHandlers {
  /// Puts a task onto the owner's thread and returns at once. Tasks may still be posted until the
  /// client is destroyed.
  std::function<void(std::function<void()>)> post;

  /// On the client's receiving thread, one message at a time. The message is acknowledged to the
  /// broker when this returns, so it must be committed by then. If it throws, it is called again
  /// with the same message until it does not: a message is never given up. Must wait for nothing
  /// but the store, above all not for the owner's thread.
  std::function<void(const Message&)> on_message;

  /// After every connect; subscriptions are being made anew.
  std::function<void()> on_connected;
  std::function<void(const std::string& reason)> on_disconnected;
  /// All subscriptions are acknowledged and `online` is on its way. Holds the filters that the
  /// broker refused. Publish every retained result again: the broker may have lost them.
  std::function<void(const std::vector<std::string>& refused)> on_subscribed;
};

/// How the connection is doing, for pages and metrics.
struct MqttStatus {
  bool connected = false;  ///< and every subscription is answered: what is sent now comes to us
  bool backlog = false;    ///< messages that come now may have waited
  std::uint64_t connects = 0;
  std::uint64_t clients_replaced = 0;  ///< after a write that failed or came too late
  std::uint64_t received = 0;
  std::uint64_t published = 0;
  std::uint64_t publish_failures = 0;
  std::uint64_t waiting_to_send = 0;
  std::uint64_t on_their_way = 0;          ///< sent, and not acknowledged
  std::string last_error;                  ///< with host and port; empty if there was none
  std::vector<std::string> refused;        ///< filters the broker refused, of the last subscribe
  std::optional<std::string> not_storing;  ///< why the message at hand cannot be stored now
};

/// The farm's one connection to its broker: MQTT 5, QoS 1, a session that outlives us for 7 days,
/// `<root>/state` online and offline, reconnecting for ever. Messages over 16 MiB are not sent to
/// us. Threads: made, started and destroyed by the owner; `publish`, `subscribe_to` and `status` by
/// any thread, and they never wait for the network. A thread of its own sends; paho's receives.
class MqttClient {
 public:
  /// Reads the password file. Throws std::runtime_error if that fails, or for a bad address.
  MqttClient(const MqttConfig& config, MqttHandlers handlers);
  /// Says `offline`, waits up to 3 s for what is on its way, and disconnects; the session stays. If
  /// a message cannot be stored even now, ends the process at once (exit code 74) rather than have
  /// it acknowledged.
  ~MqttClient();
  MqttClient(const MqttClient&) = delete;
  MqttClient& operator=(const MqttClient&) = delete;

  /// Begins to connect; a broker that is not there yet is tried again and again.
  void start();

  /// What to be subscribed to from now on; filters no longer named are unsubscribed from.
  void subscribe_to(std::vector<std::string> filters);

  /// Sends at QoS 1 as soon as there is a connection; a later message to the same topic replaces
  /// one that has not gone yet.
  void publish(Outgoing message);

  [[nodiscard]] MqttStatus status() const;

 private:
  class Connection;
  std::unique_ptr<Connection> connection_;
};

}  // namespace gley::daemon

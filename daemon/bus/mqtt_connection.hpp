#pragma once
#include <atomic>
#include <chrono>
#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <set>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "daemon/bus/backlog.hpp"
#include "daemon/bus/broker_socket.hpp"
#include "daemon/bus/mqtt_client.hpp"
#include "daemon/bus/mqtt_options.hpp"
#include "mqtt/async_client.h"

namespace gley::daemon {

/// Tells a function how a request to the broker ended. On paho's thread.
class RequestListener final : public mqtt::iaction_listener {
 public:
  using Handler = std::function<void(const mqtt::token&)>;
  RequestListener(Handler done, Handler failed)
      : done_(std::move(done)), failed_(std::move(failed)) {}
  void on_success(const mqtt::token& token) override { done_(token); }
  void on_failure(const mqtt::token& token) override { failed_(token); }

 private:
  Handler done_;
  Handler failed_;
};

/// Everything behind MqttClient. Only the sending thread calls paho after the start, because paho's
/// lock is held as long as a message is being stored. `mutex_` guards the members below it and is
/// never held while calling paho or a handler.
class MqttClient::Connection {
 public:
  Connection(const MqttConfig& config, MqttHandlers handlers);
  ~Connection();
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;

  void start();
  void subscribe_to(std::vector<std::string> filters);
  void publish(Outgoing message);
  [[nodiscard]] MqttStatus status() const;

 private:
  /// Made in place: moved, the library's options lose the session's expiry (1.2.0).
  struct Options {
    Options(const MqttConfig& config, const std::optional<std::string>& password,
            const std::string& state_topic)
        : all(connect_options_of(config, password, state_topic)) {}
    mqtt::connect_options all;
  };

  // On paho's receiving thread.
  void connect_done(const mqtt::token& token);
  void connect_failed(const mqtt::token& token);
  void connected();
  void connection_lost(const std::string& cause);
  void disconnected_by_broker(mqtt::ReasonCode reason);
  void subscribe_done(const mqtt::token& token);
  void subscribe_failed(const mqtt::token& token);
  void subscribe_answered(const std::string& filter, bool was_refused);
  void published(const mqtt::token& token);
  void publish_failed(const mqtt::token& token);
  void message_arrived(const mqtt::message& message);
  void hand_over(const Message& message);
  void could_not_store(const std::string& why, int attempt);

  // On the sending thread, the first two at the start on the owner's.
  void make_client();
  void begin_to_connect();
  void replace_client();
  void wait_for_deliveries();
  void send_until_stopped();
  void subscribe_now();
  void send_next(std::unique_lock<std::mutex>& lock);
  void send(Outgoing message);
  [[nodiscard]] bool wait_for_work(std::unique_lock<std::mutex>& lock);

  void note_error(const std::string& what);

  const MqttConfig config_;
  const MqttHandlers handlers_;
  const std::string address_;  ///< host:port
  const std::string state_topic_;
  const std::string mark_topic_;
  BrokerSocket socket_;  ///< of paho's receiving thread
  RequestListener on_connect_;
  RequestListener on_subscribe_;
  RequestListener on_publish_;
  RequestListener on_unsubscribe_;
  std::atomic<bool> stopping_{false};
  std::atomic<std::uint64_t> on_their_way_{0};       ///< given to paho, and not acknowledged
  std::atomic<bool> online_is_with_library_{false};  ///< given to paho, and not written

  mutable std::mutex mutex_;
  std::condition_variable work_;     ///< something to send, a connection, or the end
  std::condition_variable stopped_;  ///< wakes a message that waits to be stored
  MqttStatus status_;
  Outbox outbox_;
  Backlog backlog_;
  std::vector<std::string> filters_;
  std::set<std::string> subscribed_;  ///< filters last asked for, and the mark
  std::set<std::string> awaited_;     ///< of those, what the broker has not answered
  bool client_is_spoilt_ = false;     ///< it would send what it must not; see replace_client
  bool subscribe_wanted_ = false;
  std::chrono::steady_clock::time_point closes_at_;  ///< the latest, once stopping
  bool session_absent_ = false;                      ///< the broker said so at the first connect

  const std::optional<std::string> password_;
  std::unique_ptr<mqtt::async_client> client_;  ///< destroyed before what its callbacks use
  std::optional<Options> options_;  ///< within the client's life: its heap leaks what is not
  std::thread sender_;
};

}  // namespace gley::daemon

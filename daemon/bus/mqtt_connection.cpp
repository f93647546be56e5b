#include "daemon/bus/mqtt_connection.hpp"

#include <spdlog/spdlog.h>

#include <algorithm>
#include <cstdlib>
#include <utility>

#include "daemon/bus/mqtt_options.hpp"
#include "daemon/text/topic_filter.hpp"

namespace gley::daemon {
namespace {

using namespace std::chrono_literals;

constexpr int received_qos = 1;
constexpr auto closing_time = 3s;
/// Fewer than brokers take at once (Debian's Mosquitto: 20), so that nothing waits in the library:
/// it would send that on the next connection, before it subscribes, and after newer results.
constexpr std::size_t most_on_their_way = 16;

/// What the broker, or else the library, says of a failed request.
std::string reason(const mqtt::token& token) {
  // A refused connect has the broker's code in the wrong place.
  const int code = std::max<int>(token.get_reason_code(), token.get_return_code());
  if (code >= mqtt::UNSPECIFIED_ERROR) return mqtt::exception::reason_code_str(code);
  if (token.get_return_code() == MQTTASYNC_FAILURE) return "no TCP or TLS connection";
  return mqtt::exception::error_str(token.get_return_code());
}

const char* what_to_check(const mqtt::token& token) {
  const int code = std::max<int>(token.get_reason_code(), token.get_return_code());
  if (code == mqtt::NOT_AUTHORIZED || code == mqtt::BAD_USER_NAME_OR_PASSWORD)
    return "; check user and password_file under [mqtt]";
  if (token.get_return_code() == MQTTASYNC_FAILURE)
    return "; check that the broker runs, and host and port under [mqtt]";
  return "";
}

}  // namespace

MqttClient::Connection::Connection(const MqttConfig& config, MqttHandlers handlers)
    : config_(config),
      handlers_(std::move(handlers)),
      address_(config.host + ":" + std::to_string(config.port)),
      state_topic_(config.root + "/state"),
      mark_topic_(config.root + "/mark"),
      on_connect_([this](const mqtt::token& token) { connect_done(token); },
                  [this](const mqtt::token& token) { connect_failed(token); }),
      on_subscribe_([this](const mqtt::token& token) { subscribe_done(token); },
                    [this](const mqtt::token& token) { subscribe_failed(token); }),
      on_publish_([this](const mqtt::token& token) { published(token); },
                  [this](const mqtt::token& token) { publish_failed(token); }),
      on_unsubscribe_(
          [](const mqtt::token&) {},
          [this](const mqtt::token& token) { note_error("cannot unsubscribe: " + reason(token)); }),
      password_(password_of(config)) {
  make_client();
}

void MqttClient::Connection::make_client() {
  client_ =
      std::make_unique<mqtt::async_client>(broker_uri(config_), config_.client_id, client_options(),
                                           static_cast<mqtt::iclient_persistence*>(nullptr));
  options_.emplace(config_, password_, state_topic_);
  // Before the connect: with a kept session messages come right after it, and paho acknowledges
  // those that find no handler.
  client_->set_message_callback(
      [this](const mqtt::const_message_ptr& message) { message_arrived(*message); });
  client_->set_connected_handler([this](const std::string&) { connected(); });
  client_->set_connection_lost_handler([this](const std::string& why) { connection_lost(why); });
  client_->set_disconnected_handler(
      [this](const mqtt::properties&, mqtt::ReasonCode code) { disconnected_by_broker(code); });
}

MqttClient::Connection::~Connection() {
  {
    const std::lock_guard lock(mutex_);
    outbox_.put_first({state_topic_, "offline", true});
    closes_at_ = std::chrono::steady_clock::now() + closing_time;
    stopping_ = true;
  }
  work_.notify_all();
  stopped_.notify_all();
  if (sender_.joinable()) sender_.join();
  if (!client_) return;
  wait_for_deliveries();
  try {
    if (client_->is_connected()) client_->disconnect(closing_time)->wait_for(closing_time);
  } catch (const mqtt::exception& error) {
    spdlog::warn("mqtt {}: cannot disconnect: {}", address_, error.what());
  }
}

/// The library looks at what is on its way every 3 s only: to disconnect while a message waits for
/// its acknowledgement takes that long, however soon it comes.
void MqttClient::Connection::wait_for_deliveries() {
  while (client_->is_connected() && !client_->get_pending_delivery_tokens().empty() &&
         std::chrono::steady_clock::now() < closes_at_)
    std::this_thread::sleep_for(2ms);
}

void MqttClient::Connection::start() {
  begin_to_connect();
  sender_ = std::thread([this] { send_until_stopped(); });
}

void MqttClient::Connection::begin_to_connect() {
  try {
    client_->connect(options_->all, nullptr, on_connect_);
  } catch (const mqtt::exception& error) {
    note_error(std::string("cannot connect: ") + error.what());
  }
}

void MqttClient::Connection::subscribe_to(std::vector<std::string> filters) {
  {
    const std::lock_guard lock(mutex_);
    filters_ = without_covered(std::move(filters));
    subscribe_wanted_ = true;
  }
  work_.notify_all();
}

void MqttClient::Connection::publish(Outgoing message) {
  {
    const std::lock_guard lock(mutex_);
    outbox_.put(std::move(message));
  }
  work_.notify_all();
}

MqttStatus MqttClient::Connection::status() const {
  const std::lock_guard lock(mutex_);
  MqttStatus status = status_;
  status.connected = status_.connected && !subscribe_wanted_ && awaited_.empty();
  status.backlog = backlog_.waiting();
  status.waiting_to_send = outbox_.size();
  status.on_their_way = on_their_way_;
  return status;
}

void MqttClient::Connection::connect_done(const mqtt::token& token) {
  // Told if the very first try succeeds; after later ones the mark alone says what waited.
  try {
    if (token.get_connect_response().is_session_present()) return;
  } catch (const mqtt::exception&) {
    return;
  }
  const std::lock_guard lock(mutex_);
  session_absent_ = true;
  if (status_.connects <= 1) backlog_.nothing_waited();
}

void MqttClient::Connection::connect_failed(const mqtt::token& token) {
  const std::string ca = config_.ca_file ? " (CA " + config_.ca_file->string() + ")" : "";
  note_error("cannot connect: " + reason(token) + ca + what_to_check(token) + "; trying again");
}

void MqttClient::Connection::connected() {
  socket_.connected(config_.port);
  {
    const std::lock_guard lock(mutex_);
    status_.connected = true;
    ++status_.connects;
    backlog_.connected(std::chrono::steady_clock::now());
    if (status_.connects == 1 && session_absent_) backlog_.nothing_waited();
    subscribe_wanted_ = true;
  }
  work_.notify_all();
  spdlog::info("mqtt {}: connected", address_);
  if (handlers_.on_connected) handlers_.post(handlers_.on_connected);
}

void MqttClient::Connection::connection_lost(const std::string& cause) {
  {
    const std::lock_guard lock(mutex_);
    if (!status_.connected) return;
    status_.connected = false;
    outbox_.remove(state_topic_);  // said anew once the next connection listens
    if (online_is_with_library_) client_is_spoilt_ = true;
  }
  work_.notify_all();
  const std::string why = cause.empty() ? "connection lost" : cause;
  note_error(why);
  if (!handlers_.on_disconnected) return;
  handlers_.post([handler = handlers_.on_disconnected, why] { handler(why); });
}

void MqttClient::Connection::disconnected_by_broker(mqtt::ReasonCode code) {
  const std::string hint = code == mqtt::SESSION_TAKEN_OVER
                               ? " by another client with client_id " + config_.client_id
                               : "";
  connection_lost("disconnected by the broker: " + mqtt::exception::reason_code_str(code) + hint);
}

void MqttClient::Connection::published(const mqtt::token& token) {
  socket_.acknowledge();
  --on_their_way_;
  if ((*token.get_topics())[0] == state_topic_) online_is_with_library_ = false;
  work_.notify_all();
}

void MqttClient::Connection::publish_failed(const mqtt::token& token) {
  note_error("cannot publish: " + reason(token));
  --on_their_way_;
  {
    const std::lock_guard lock(mutex_);
    ++status_.publish_failures;
    if (token.get_reason_code() < mqtt::UNSPECIFIED_ERROR) client_is_spoilt_ = true;
  }
  work_.notify_all();
}

/// The library (1.3.12) keeps a message whose writing failed to send it again on the next
/// connection, but has freed its topic by then; and an `online` not yet written when the connection
/// went would go out on the next one before that listens. Another client, under the same name,
/// takes its place before that. Nothing is lost: the session is the broker's, and every retained
/// result is published again after a connect.
void MqttClient::Connection::replace_client() {
  connection_lost("");
  options_.reset();
  client_.reset();
  {
    // So that a broker that takes connections only to break them is not asked without a pause.
    std::unique_lock lock(mutex_);
    if (stopped_.wait_for(lock, 1s, [this] { return stopping_.load(); })) return;
    client_is_spoilt_ = false;
    online_is_with_library_ = false;
    ++status_.clients_replaced;
  }
  on_their_way_ = 0;
  make_client();
  begin_to_connect();
}

void MqttClient::Connection::subscribe_done(const mqtt::token& token) {
  bool refused = false;
  try {
    const auto codes = token.get_subscribe_response().get_reason_codes();
    refused = !codes.empty() && codes.front() >= mqtt::UNSPECIFIED_ERROR;
  } catch (const mqtt::exception& error) {
    note_error(std::string("an answer to subscribe without its code: ") + error.what());
  }
  subscribe_answered((*token.get_topics())[0], refused);
}

void MqttClient::Connection::subscribe_failed(const mqtt::token& token) {
  note_error("cannot subscribe to " + (*token.get_topics())[0] + ": " + reason(token));
  // Without a code of the broker's the connection went, and the next one subscribes.
  if (token.get_reason_code() < mqtt::UNSPECIFIED_ERROR) return;
  subscribe_answered((*token.get_topics())[0], true);
}

void MqttClient::Connection::subscribe_answered(const std::string& filter, bool was_refused) {
  std::vector<std::string> refused;
  {
    const std::lock_guard lock(mutex_);
    const bool was_last = awaited_.erase(filter) > 0 && awaited_.empty();
    if (was_refused) status_.refused.push_back(filter);
    if (!was_last) return;
    refused = status_.refused;
    // The mark first: whoever sees `online` and then sends finds the backlog over. Ahead of all
    // else, for until it is back a reading without a time is put aside.
    if (backlog_.waiting()) outbox_.put_first({mark_topic_, backlog_.mark(), false});
    // True of this connection only: at QoS 1 the library would send it again on the next one,
    // before that listens.
    outbox_.put({state_topic_, "online", true, 0});
  }
  work_.notify_all();
  if (!handlers_.on_subscribed) return;
  handlers_.post([handler = handlers_.on_subscribed, refused] { handler(refused); });
}

void MqttClient::Connection::message_arrived(const mqtt::message& message) {
  socket_.acknowledge();
  bool may_have_waited = message.is_retained();
  {
    const std::lock_guard lock(mutex_);
    if (message.get_topic() == mark_topic_) {
      backlog_.mark_came(message.get_payload_str());
      return;
    }
    if (backlog_.message_came(std::chrono::steady_clock::now())) may_have_waited = true;
    ++status_.received;
  }
  hand_over({message.get_topic(), message.get_payload_str(), may_have_waited});
}

void MqttClient::Connection::hand_over(const Message& message) {
  for (int attempt = 0;; ++attempt) {
    std::string why = "unknown error";
    try {
      handlers_.on_message(message);
      const std::lock_guard lock(mutex_);
      if (attempt > 0) spdlog::info("storing messages again");
      status_.not_storing.reset();
      return;
    } catch (const std::exception& error) {
      why = error.what();
    } catch (...) {
    }
    could_not_store(why, attempt);
  }
}

void MqttClient::Connection::could_not_store(const std::string& why, int attempt) {
  constexpr int attempts_between_lines = 60;
  if (attempt % attempts_between_lines == 0) {
    spdlog::critical("cannot store a message, trying again each second: {}", why);
  }
  std::unique_lock lock(mutex_);
  status_.not_storing = why;
  stopped_.wait_for(lock, 1s, [this] { return stopping_.load(); });
  if (!stopping_) return;
  // To return would acknowledge the message. The broker keeps it for the next start.
  spdlog::critical("ending with a message not stored; it stays with the broker: {}", why);
  constexpr int input_output_error = 74;  // EX_IOERR of sysexits.h
  std::_Exit(input_output_error);
}

bool MqttClient::Connection::wait_for_work(std::unique_lock<std::mutex>& lock) {
  const auto has_work = [this] {
    return client_is_spoilt_ || (status_.connected && (subscribe_wanted_ || outbox_.size() > 0));
  };
  work_.wait(lock, [&] { return stopping_ || has_work(); });
  if (stopping_ && std::chrono::steady_clock::now() > closes_at_) return false;
  return has_work();
}

/// Sends what has waited longest, or waits for an acknowledgement if too many are missing.
void MqttClient::Connection::send_next(std::unique_lock<std::mutex>& lock) {
  constexpr auto looks_again = 10ms;  // the library may forget a message before it tells us so
  lock.unlock();
  const bool has_room = client_->get_pending_delivery_tokens().size() < most_on_their_way;
  lock.lock();
  if (!has_room) {
    work_.wait_for(lock, looks_again);
    return;
  }
  ++on_their_way_;  // before it leaves the outbox: at no moment is it in neither
  Outgoing message = outbox_.take().value();
  lock.unlock();
  send(std::move(message));
  lock.lock();
}

void MqttClient::Connection::send_until_stopped() {
  std::unique_lock lock(mutex_);
  while (wait_for_work(lock)) {
    if (client_is_spoilt_) {
      if (stopping_) return;
      lock.unlock();
      replace_client();
      lock.lock();
    } else if (subscribe_wanted_) {
      lock.unlock();
      subscribe_now();
      lock.lock();
    } else {
      send_next(lock);
    }
  }
}

void MqttClient::Connection::subscribe_now() {
  std::set<std::string> wanted;
  std::set<std::string> before;
  {
    const std::lock_guard lock(mutex_);
    subscribe_wanted_ = false;
    wanted.insert(filters_.begin(), filters_.end());
    wanted.insert(mark_topic_);
    before = std::exchange(subscribed_, wanted);
    awaited_ = wanted;
    status_.refused.clear();
  }
  try {
    for (const std::string& filter : before) {
      if (!wanted.contains(filter)) client_->unsubscribe(filter, nullptr, on_unsubscribe_);
    }
    // One request each: the library's request for many with options crashes (1.2.0).
    for (const std::string& filter : wanted) {
      // Not our own messages, but for the mark; retained ones only when the subscription is new.
      const mqtt::subscribe_options options(filter != mark_topic_, mqtt::byte{0},
                                            mqtt::subscribe_options::SEND_RETAINED_ON_NEW);
      client_->subscribe(filter, received_qos, nullptr, on_subscribe_, options);
    }
  } catch (const mqtt::exception& error) {
    // If the connection went, the next one subscribes.
    note_error(std::string("cannot subscribe: ") + error.what());
  }
}

void MqttClient::Connection::send(Outgoing message) {
  const bool is_state = message.topic == state_topic_;
  if (is_state) online_is_with_library_ = true;
  try {
    client_->publish(
        mqtt::make_message(message.topic, message.payload, message.qos, message.retained), nullptr,
        on_publish_);
    const std::lock_guard lock(mutex_);
    ++status_.published;
  } catch (const mqtt::exception& error) {
    // Too many on their way, or the connection went just now: it keeps its place.
    note_error(std::string("cannot publish yet: ") + error.what());
    std::unique_lock lock(mutex_);
    ++status_.publish_failures;
    if (is_state) online_is_with_library_ = false;
    if (!is_state || status_.connected) outbox_.put_back(std::move(message));
    --on_their_way_;
    stopped_.wait_for(lock, 50ms, [this] { return stopping_.load(); });
    if (stopping_) outbox_ = {};
  }
}

void MqttClient::Connection::note_error(const std::string& what) {
  const std::string line = address_ + ": " + what;
  bool is_new = false;
  {
    const std::lock_guard lock(mutex_);
    is_new = status_.last_error != line;
    status_.last_error = line;
  }
  if (is_new) spdlog::warn("mqtt {}", line);
}

}  // namespace gley::daemon

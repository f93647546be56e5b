#include "daemon/bus/mqtt_client.hpp"

#include "daemon/bus/mqtt_connection.hpp"

namespace gley::daemon {

MqttClient::MqttClient(const MqttConfig& config, MqttHandlers handlers)
    : connection_(std::make_unique<Connection>(config, std::move(handlers))) {}

MqttClient::~MqttClient() = default;

void MqttClient::start() {
  connection_->start();
}

void MqttClient::subscribe_to(std::vector<std::string> filters) {
  connection_->subscribe_to(std::move(filters));
}

void MqttClient::publish(Outgoing message) {
  connection_->publish(std::move(message));
}

MqttStatus MqttClient::status() const {
  return connection_->status();
}

}  // namespace gley::daemon

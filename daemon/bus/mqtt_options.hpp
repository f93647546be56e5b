#pragma once
#include <string>

#include "daemon/farm/farm_config.hpp"
#include "mqtt/async_client.h"

namespace gley::daemon {

/// "ssl://host:port" if a CA is named, else "tcp://host:port".
[[nodiscard]] std::string broker_uri(const MqttConfig& config);

[[nodiscard]] mqtt::create_options client_options();

/// Reads the password file. Throws std::runtime_error naming it.
[[nodiscard]] mqtt::connect_options connect_options_of(const MqttConfig& config,
                                                       const std::string& state_topic);

}  // namespace gley::daemon

#pragma once
#include <optional>
#include <string>

#include "daemon/farm/farm_config.hpp"
#include "mqtt/async_client.h"

namespace gley::daemon {

/// "ssl://host:port" if a CA is named, else "tcp://host:port".
[[nodiscard]] std::string broker_uri(const MqttConfig& config);

[[nodiscard]] mqtt::create_options client_options();

/// Reads the password file, if one is named. Throws std::runtime_error naming it.
[[nodiscard]] std::optional<std::string> password_of(const MqttConfig& config);

[[nodiscard]] mqtt::connect_options connect_options_of(const MqttConfig& config,
                                                       const std::optional<std::string>& password,
                                                       const std::string& state_topic);

}  // namespace gley::daemon

#include "daemon/bus/mqtt_options.hpp"

#include "daemon/farm/secret_file.hpp"

namespace gley::daemon {
namespace {

mqtt::ssl_options tls_options_of(const MqttConfig& config) {
  mqtt::ssl_options_builder tls;
  tls.trust_store(config.ca_file->string());
  tls.enable_server_cert_auth(true);
  tls.verify(true);  // the certificate must name the host
  if (config.certificate_file) tls.key_store(config.certificate_file->string());
  if (config.key_file) tls.private_key(config.key_file->string());
  return tls.finalize();
}

}  // namespace

std::string broker_uri(const MqttConfig& config) {
  const bool is_ipv6 = config.host.find(':') != std::string::npos;
  const std::string host = is_ipv6 ? "[" + config.host + "]" : config.host;
  return (config.ca_file ? "ssl://" : "tcp://") + host + ":" + std::to_string(config.port);
}

mqtt::create_options client_options() {
  mqtt::create_options options(MQTTVERSION_5);
  // Counts messages on their way also while connected; what does not fit waits in the outbox.
  options.set_max_buffered_messages(10000);
  return options;
}

std::optional<std::string> password_of(const MqttConfig& config) {
  if (!config.password_file) return std::nullopt;
  return secret_of(*config.password_file, "password for MQTT");
}

mqtt::connect_options connect_options_of(const MqttConfig& config,
                                         const std::optional<std::string>& password,
                                         const std::string& state_topic) {
  constexpr int session_lives_s = 7 * 86400;
  constexpr int largest_packet_bytes = 16 * 1024 * 1024;  // memory stays bounded
  mqtt::connect_options options;
  options.set_mqtt_version(MQTTVERSION_5);
  options.set_clean_start(false);
  options.set_keep_alive_interval(30);
  options.set_connect_timeout(10);
  options.set_automatic_reconnect(1, 60);
  options.set_max_inflight(100);
  options.set_properties({{mqtt::property::SESSION_EXPIRY_INTERVAL, session_lives_s},
                          {mqtt::property::MAXIMUM_PACKET_SIZE, largest_packet_bytes}});
  options.set_will(mqtt::will_options(state_topic, std::string("offline"), 1, true));
  if (config.user) options.set_user_name(*config.user);
  if (password) options.set_password(*password);
  if (config.ca_file) options.set_ssl(tls_options_of(config));
  return options;
}

}  // namespace gley::daemon

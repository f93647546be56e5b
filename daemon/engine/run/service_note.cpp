#include "daemon/engine/run/service_note.hpp"

#include <nlohmann/json.hpp>

#include "daemon/store/derived_store.hpp"

namespace gley::daemon {

namespace {
// Not derived from readings, so it holds under every configuration and model.
constexpr DerivedKey note_key{"service", "any", "any"};
}  // namespace

std::string service_note(const ServiceView& service) {
  return nlohmann::json{{"broker_connected", service.broker_connected},
                        {"broker", service.broker},
                        {"broker_message", service.broker_message},
                        {"store_message", service.store_message}}
      .dump();
}

void keep_service_note(Database& database, const std::string& note) {
  DerivedStore(database).put(note_key, note);
}

ServiceView noted_service(Database& database) {
  ServiceView service;
  const auto body = DerivedStore(database).get(note_key);
  const auto note = nlohmann::json::parse(body.value_or(""), nullptr, false);
  if (!note.is_object()) {
    service.broker_message = "the daemon has not run on this store yet";
    return service;
  }
  service.broker_connected = note.value("broker_connected", false);
  service.broker = note.value("broker", "");
  service.broker_message = note.value("broker_message", "");
  service.store_message = note.value("store_message", "");
  return service;
}

}  // namespace gley::daemon

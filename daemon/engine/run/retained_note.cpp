#include "daemon/engine/run/retained_note.hpp"

#include <nlohmann/json.hpp>

#include "daemon/store/derived_store.hpp"

namespace gley::daemon {

namespace {
// Not derived from readings, so it holds under every configuration and model.
constexpr DerivedKey note_key{"retained", "any", "any"};
}  // namespace

void keep_retained_note(Database& database, const std::set<std::string>& topics) {
  DerivedStore(database).put(note_key, nlohmann::json(topics).dump());
}

std::vector<std::string> noted_as_retained(Database& database) {
  const auto body = DerivedStore(database).get(note_key);
  std::vector<std::string> topics;
  for (const auto& topic : nlohmann::json::parse(body.value_or("[]"), nullptr, false))
    if (topic.is_string()) topics.push_back(topic);
  return topics;
}

}  // namespace gley::daemon

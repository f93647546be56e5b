#include "daemon/engine/retained_note.hpp"

#include <nlohmann/json.hpp>

#include "daemon/store/derived_store.hpp"

namespace gley::daemon {

namespace {
// Not derived from readings, so it holds under every configuration and model.
constexpr DerivedKey note_key{"retained", "any", "any"};
}  // namespace

void keep_retained_note(Database& database, const std::vector<std::string>& topics) {
  DerivedStore(database).put(note_key, nlohmann::json(topics).dump());
}

std::vector<std::string> noted_as_retained(Database& database) {
  const auto body = DerivedStore(database).get(note_key);
  if (!body) return {};
  return nlohmann::json::parse(*body).get<std::vector<std::string>>();
}

}  // namespace gley::daemon

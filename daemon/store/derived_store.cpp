#include "daemon/store/derived_store.hpp"

namespace gley::daemon {

DerivedStore::DerivedStore(Database& database)
    : put_(database.prepare("INSERT OR REPLACE INTO derived(name, config_hash, model_version, body)"
                            " VALUES(?, ?, ?, ?)")),
      get_(database.prepare(
          "SELECT body FROM derived WHERE name = ? AND config_hash = ? AND model_version = ?")) {}

void DerivedStore::put(const DerivedKey& key, std::string_view body) {
  put_.run(key.name, key.config_hash, key.model_version, Blob{body});
}

std::optional<std::string> DerivedStore::get(const DerivedKey& key) {
  std::optional<std::string> body;
  get_.visit([&](const Row& row) { body = row.text(0); }, key.name, key.config_hash,
             key.model_version);
  return body;
}

}  // namespace gley::daemon

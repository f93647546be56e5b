#include "daemon/engine/fields/checkpoint_store.hpp"

#include <spdlog/spdlog.h>

#include "daemon/engine/fields/build_fingerprint.hpp"
#include "daemon/store/derived_store.hpp"
#include "daemon/store/store_error.hpp"
#include "model/version.hpp"

namespace gley::daemon {

namespace {

constexpr std::string_view name = "checkpoint";

/// The build's own mark beside the model's version: the bytes are those of its memory, and a change
/// that should have raised the version and did not gives no wrong answers.
std::string version() {
  return std::string(model::version) + "+" + std::string(build_fingerprint());
}

bool fits(const Checkpoint& checkpoint, const FarmConfig& farm) {
  return checkpoint.book.records.size() == farm.stations.size() &&
         checkpoint.book.marks.size() == farm.fields.size();
}

}  // namespace

KeptCheckpoint kept_checkpoint(Database& database, const FarmConfig& farm) {
  KeptCheckpoint kept;
  if (farm.hash.empty()) return kept;
  const auto bytes = DerivedStore(database).get({name, farm.hash, version()});
  if (!bytes) return kept;
  kept.checkpoint = checkpoint_from(*bytes);
  kept.damaged = !kept.checkpoint || !fits(*kept.checkpoint, farm);
  if (kept.damaged) kept.checkpoint.reset();
  return kept;
}

void store_checkpoint(const FarmConfig& farm, const Checkpoint& checkpoint) try {
  // It can be made again, so nobody waits for the disk.
  Database database(farm.store.path, Durability::process);
  DerivedStore(database).put({name, farm.hash, version()}, bytes_of(checkpoint));
} catch (const StoreError& error) {
  spdlog::warn("the state of the fields could not be kept for the next start: {}", error.what());
}

}  // namespace gley::daemon

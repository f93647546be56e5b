#pragma once
#include <optional>

#include "daemon/engine/fields/checkpoint.hpp"
#include "daemon/farm/farm_config.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// What the store has for a start to go on from.
struct KeptCheckpoint {
  std::optional<Checkpoint> checkpoint;  ///< of this configuration, model and build
  bool damaged = false;                  ///< there was one, and it cannot be used
};
[[nodiscard]] KeptCheckpoint kept_checkpoint(Database& database, const FarmConfig& farm);

/// Puts a checkpoint into the store, in place of the one there, through a connection of its own:
/// for any thread. A store that will not take it is named in the log; the next one is tried as
/// well.
void store_checkpoint(const FarmConfig& farm, const Checkpoint& checkpoint);

}  // namespace gley::daemon

#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/board/snapshot/workings.hpp"

namespace gley::daemon {

/// A reason by a word that programs can hold on to, and in a sentence.
struct HealthReason {
  std::string_view what;
  std::string text;
};

/// Whether the daemon does what it is for: takes readings in, keeps them, and shows what follows.
struct Health {
  std::vector<HealthReason> ill;    ///< empty: healthy
  std::vector<HealthReason> noted;  ///< what may become an illness
};

[[nodiscard]] Health health_of(const BoardSnapshot& board, const Workings& workings);

/// {"status": "ok" or "ill", "time", "reasons": [{"reason", "text"}], "notes": [the same]}
[[nodiscard]] std::string health_json(const Health& health, const Workings& workings);

}  // namespace gley::daemon

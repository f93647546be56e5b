#pragma once
#include <cstdint>
#include <vector>

#include "daemon/readings/reading.hpp"
#include "daemon/readings/station_judge.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// What a person said is right although a quality check doubts it. Append-only. The thread of its
/// Database.
class AcceptedStore {
 public:
  explicit AcceptedStore(Database& database);

  void put(const AcceptedDays& days, Instant accepted);

  /// Rises with each one put: whether there are new ones.
  [[nodiscard]] std::int64_t last_id();

  /// In order of coming.
  [[nodiscard]] std::vector<AcceptedDays> all();

 private:
  Statement put_;
  Statement last_id_;
  Statement all_;
};

}  // namespace gley::daemon

#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "daemon/readings/reading.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// A forecast message as it came.
struct StoredForecast {
  std::int64_t id = 0;
  std::string topic;
  std::string payload;
  Instant received{};
};

/// Reads back the forecasts that the Inbox kept. The thread of its Database.
class ForecastStore {
 public:
  explicit ForecastStore(Database& database);

  [[nodiscard]] std::optional<StoredForecast> newest();
  /// Entered after the one named, oldest first.
  [[nodiscard]] std::vector<StoredForecast> after(std::int64_t id);
  /// Removes those received before the moment, but never the newest.
  void forget_before(Instant moment);

 private:
  Statement newest_;
  Statement after_;
  Statement forget_;
};

}  // namespace gley::daemon

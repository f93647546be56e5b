#pragma once
#include <utility>
#include <vector>

#include "daemon/alerts/alert_book.hpp"
#include "daemon/engine/farm_state.hpp"
#include "daemon/engine/outlook_job.hpp"
#include "daemon/store/alert_store.hpp"

namespace gley::daemon {

/// Looks at the farm for each event, and keeps what began and ended in the store before anyone is
/// told, so that a restart goes on where it was. The thread of its Database.
class AlertWatch {
 public:
  explicit AlertWatch(Database& database);

  /// Tells whether an alert began, changed or ended. outlook: null without a fresh forecast.
  bool look(const FarmState& state, Instant now, const FarmOutlook* outlook);

  [[nodiscard]] const std::vector<Alert>& open() const { return book_.open(); }

  /// Ids of alerts that ended since the last call.
  [[nodiscard]] std::vector<std::string> take_ended() { return std::exchange(ended_, {}); }

 private:
  void keep(const Alert& alert);
  [[nodiscard]] std::set<std::string> filling_soon(const FarmState& state,
                                                   const FarmOutlook* outlook) const;

  AlertStore store_;
  AlertBook book_;
  std::vector<std::string> ended_;
};

}  // namespace gley::daemon

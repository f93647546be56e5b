#pragma once
#include <map>
#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "daemon/alerts/alert_round.hpp"
#include "daemon/board/http/http_message.hpp"
#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/judge/recent_days.hpp"
#include "daemon/engine/outlook/outlook_job.hpp"
#include "daemon/engine/watch/told_desk.hpp"
#include "daemon/store/alert_store.hpp"

namespace gley::daemon {

/// Looks at the farm for each event, and keeps what began and ended in the store before anyone is
/// told, so that a restart goes on where it was. The thread of its Database.
class AlertWatch {
 public:
  explicit AlertWatch(Database& database);
  AlertWatch(const AlertWatch&) = delete;
  AlertWatch& operator=(const AlertWatch&) = delete;

  /// Takes up what began, changed and ended. outlook: null without a fresh forecast.
  void look(const FarmState& state, Instant now, const FarmOutlook* outlook, const ToldDesk& told);

  [[nodiscard]] const std::vector<Alert>& open() const { return book_.open(); }

  /// Notes who has seen an alert and answers with who saw it first; 404 if there is no such alert.
  [[nodiscard]] Response see(const std::string& id, const std::string& name, Instant now);

  /// Whether another process noted who has seen an alert.
  [[nodiscard]] bool has_news() { return seen_in_store() != seen_; }

  /// Adds who saw them first to the open alerts' views.
  void show_seen(std::vector<AlertView>& alerts) const;

  /// Those that ended within 60 days, the latest first.
  [[nodiscard]] const std::shared_ptr<const std::vector<AlertView>>& past() const { return past_; }

  /// Ids of alerts that ended since the last call.
  [[nodiscard]] std::vector<std::string> take_ended() { return std::exchange(ended_, {}); }

 private:
  using Seen = std::map<std::string, std::pair<std::string, Instant>>;  ///< by open alert

  void keep(const Alert& alert, const FarmConfig& farm);
  void keep_all(const FarmConfig& farm);
  [[nodiscard]] Seen seen_in_store();
  void read_past(const FarmConfig& farm, Instant now);

  AlertStore store_;
  AlertBook book_;
  RecentDays recent_;
  Seen seen_;
  std::shared_ptr<const std::vector<AlertView>> past_;
  const FarmConfig* past_of_ = nullptr;
  Instant past_read_{};
  std::vector<std::string> ended_;
  std::map<std::string, Alert> unkept_;  ///< changed since they were last stored, by id
};

}  // namespace gley::daemon

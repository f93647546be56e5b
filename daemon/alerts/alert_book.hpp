#pragma once
#include <functional>
#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "daemon/alerts/alert.hpp"

namespace gley::daemon {

/// Turns conditions that hold into alerts that begin and end: one alert an event for the farm,
/// which fields may join for 24 hours after it began; a field that comes later begins a new one. An
/// alert ends when it holds for none of its fields. No clock of its own. Owned by one thread.
class AlertBook {
 public:
  struct Ways {
    /// Whether an id was ever given: by another run, perhaps in this very minute.
    std::function<bool(const std::string& id)> is_taken = {};
    /// Looked at once a day, there is nothing to linger for.
    bool once_a_day = false;
  };
  AlertBook() = default;
  explicit AlertBook(Ways ways) : ways_(std::move(ways)) {}

  /// What a look at the farm changed.
  struct Changes {
    std::vector<std::string> begun;    ///< alert ids
    std::vector<std::string> changed;  ///< fields joined or left
    std::vector<std::string> ended;
  };

  /// What an alert is of.
  struct Topic {
    AlertEvent event = AlertEvent::at_field_capacity;
    std::string subject = {};
  };

  /// States for which ids an event holds at a moment. Moments must not go back.
  Changes look(const Topic& topic, const std::set<std::string>& holds_for, Instant now);

  /// Whether an alert of this stands for an id.
  [[nodiscard]] bool names(const Topic& topic, const std::string& id) const;

  /// Takes up open alerts where another run left them.
  void restore(std::vector<Alert> open) { open_ = std::move(open); }

  [[nodiscard]] const std::vector<Alert>& open() const { return open_; }
  [[nodiscard]] const Alert* find_open(const std::string& id) const;

  /// Alerts that ended since the last call, in order of ending.
  [[nodiscard]] std::vector<Alert> take_ended();

 private:
  void begin(const Topic& topic, std::set<std::string> ids, Instant now, Changes& changes);
  [[nodiscard]] std::string id_for(const Topic& topic, Instant now);
  [[nodiscard]] bool drop_ceased(Alert& alert, const std::set<std::string>& holds_for,
                                 Instant now) const;
  void end_empty(const Topic& topic, Instant now, Changes& changes);

  Ways ways_;
  std::vector<Alert> open_;
  std::vector<Alert> ended_;
  std::map<std::string, int> given_;  ///< ids of each event and minute, of the latest minute
};

}  // namespace gley::daemon

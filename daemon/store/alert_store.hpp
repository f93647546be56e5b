#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/readings/reading.hpp"
#include "daemon/store/database.hpp"

namespace gley::daemon {

/// An alert as it is kept, open or ended.
struct StoredAlert {
  std::string id;
  std::string event;
  std::string subject = {};         ///< what it is about beside its fields, a machine's id
  std::vector<std::string> fields;  ///< all it ever held for
  std::vector<std::string> active;  ///< those it holds for now
  std::string severity;
  Instant onset{};
  std::optional<Instant> ended;
  std::string headline;
  std::optional<std::string> seen_by;
  std::optional<Instant> seen;
};

/// Keeps alerts over a restart. The thread of its Database.
class AlertStore {
 public:
  explicit AlertStore(Database& database);

  /// Enters the alert or replaces what it holds; who saw it stays as it was.
  void put(const StoredAlert& alert);
  /// Who saw it first stays; false if there is no such alert, or it was seen before.
  bool mark_seen(std::string_view id, std::string_view who, Instant when);
  [[nodiscard]] std::vector<StoredAlert> open();
  /// Those that began at the moment or later, oldest first.
  [[nodiscard]] std::vector<StoredAlert> since(Instant moment);
  /// Those that ended at the moment or later, the latest first, at most so many.
  [[nodiscard]] std::vector<StoredAlert> ended_since(Instant moment, int most);
  [[nodiscard]] std::optional<StoredAlert> find(std::string_view id);

 private:
  Statement put_;
  Statement seen_;
  Statement open_;
  Statement since_;
  Statement ended_;
  Statement find_;
};

}  // namespace gley::daemon

#pragma once
#include <chrono>
#include <optional>
#include <string>
#include <vector>

#include "daemon/alerts/field_moment.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/engine/judge/judgement.hpp"
#include "daemon/store/told_store.hpp"

namespace gley::daemon {

/// The machines whose windows on a field are told: those of [alerts], else the field's own sign.
[[nodiscard]] std::vector<const MachineConfig*> alerted_machines(const FarmConfig& farm,
                                                                 const FieldConfig& field);

[[nodiscard]] WaitingRules waiting_rules(const FarmConfig& farm);

/// Whether somebody told that this machine, or one not named, drove on the field on that farm day.
[[nodiscard]] bool driven(const std::vector<KeptReport>& reports, const std::string& field,
                          const std::string& machine, Instant from, Instant to);

/// What a field's last days tell its alerts.
struct RecentField {
  FieldBefore before;
  std::vector<Waiting> machines;  ///< in the order of alerted_machines
};

/// Takes a field's days in order and says what they amount to. The daemon and replay share it.
/// Owned by one thread, as is RecentDays.
class RecentFieldDays {
 public:
  RecentFieldDays(std::vector<const MachineConfig*> machines, WaitingRules rules);

  /// driven: by machine, whether it was told to have driven that day.
  void day(const JudgedDay& judged, const std::vector<bool>& driven);
  [[nodiscard]] const RecentField& so_far() const { return recent_; }
  [[nodiscard]] const std::vector<const MachineConfig*>& machines() const { return machines_; }

 private:
  std::vector<const MachineConfig*> machines_;
  RecentField recent_;
  std::vector<bool> ran_;  ///< drains, of the last seven days
};

/// Keeps it for all fields, worked out anew when a field's past or what was told has changed.
class RecentDays {
 public:
  void look(const FarmState& state, const std::vector<KeptReport>& reports);
  [[nodiscard]] const RecentField& of(std::size_t field) const { return fields_[field].recent; }

 private:
  struct Entry {
    std::chrono::sys_days today{};
    std::optional<model::FieldState> evening;
    std::size_t reports = 0;
    RecentField recent;
  };
  const FarmState* of_ = nullptr;  ///< whose; another after a reload
  std::vector<Entry> fields_;
};

}  // namespace gley::daemon

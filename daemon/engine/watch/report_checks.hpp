#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"
#include "daemon/engine/fields/farm_state.hpp"
#include "daemon/store/told_store.hpp"

namespace gley::daemon {

/// Keeps the check of all that was told, worked out anew when a field's past or what was told
/// changed. Owned by one thread.
class ReportChecks {
 public:
  void look(const FarmState& state, const std::vector<KeptReport>& reports);

  /// Adds it to a field's view, whose reports stand in the order of those last looked at.
  void show(std::size_t field, FieldView& view) const;

 private:
  struct Entry {
    std::vector<FieldReport> reports;
    std::vector<std::optional<ReportCheck>> checks;
    std::uint64_t past = 0;          ///< revision of the ended days; 0: nothing is worked out yet
    std::uint64_t today_so_far = 0;  ///< version of today
    std::chrono::sys_days today{};
  };
  void sort_by_field(const FarmState& state);
  static void work_out(Entry& entry, std::size_t field, const FarmState& state);

  const FarmState* of_ = nullptr;  ///< whose; another after a reload
  std::vector<FieldReport> reports_;
  std::vector<Entry> fields_;
};

}  // namespace gley::daemon

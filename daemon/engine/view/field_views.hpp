#pragma once
#include <optional>
#include <vector>

#include "daemon/engine/view/board_view.hpp"

namespace gley::daemon {

/// A field that is shown anew, and as it was shown before.
struct ShownAnew {
  std::size_t field = 0;
  std::optional<FieldView> before;
};

/// Brings the views of the fields up to the farm's state, and makes only those anew whose grounds
/// have changed: with 500 fields a reading concerns a few. Owned by one thread.
class FieldViews {
 public:
  /// views: as this made them last, or of an earlier configuration, then all are made anew. Tells
  /// which were.
  std::vector<ShownAnew> look(const FarmState& state, Instant now, const FarmOutlook* outlook,
                              std::vector<FieldView>& views);

  /// The next look makes all of them anew.
  void forget() { grounds_.clear(); }

 private:
  /// All that a view is made from but for the configuration.
  struct Grounds {
    std::uint64_t version = 0;
    std::chrono::sys_days today{};
    std::optional<double> rain_24h_mm;
    Instant outlook_made{};
    std::chrono::sys_time<std::chrono::minutes> outlook_read{};
    bool silent = false;

    friend bool operator==(const Grounds&, const Grounds&) = default;
  };
  [[nodiscard]] static Grounds grounds_of(const FarmState& state, std::size_t field, Instant now,
                                          const FarmOutlook* outlook);

  std::vector<Grounds> grounds_;  ///< by field
};

}  // namespace gley::daemon

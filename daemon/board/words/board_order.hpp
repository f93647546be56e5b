#pragma once
#include <vector>

#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// Where a field stands on the board, by the machine it waits for: its sign machine.
enum class Place {
  now,     ///< carries it, perhaps with care
  next,    ///< does not, and the forecast opens a window
  leave,   ///< does not, and no window is in sight
  unknown  ///< no verdict, or no machine is described
};
inline constexpr Place places[] = {Place::now, Place::next, Place::leave, Place::unknown};

/// Null where the farm describes no machine.
[[nodiscard]] const MachineView* sign_machine_of(const FieldView& field);

[[nodiscard]] Place place_of(const FieldView& field);

/// The fields of one place: easiest ground first, of those that open the soonest first; alike ones
/// as the configuration lists them.
[[nodiscard]] std::vector<const FieldView*> fields_at(const std::vector<FieldView>& fields,
                                                      Place place);

/// All of them from A to Z, without regard to case.
[[nodiscard]] std::vector<const FieldView*> fields_by_name(const std::vector<FieldView>& fields);

}  // namespace gley::daemon

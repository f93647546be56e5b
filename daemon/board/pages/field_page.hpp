#pragma once
#include <optional>
#include <string>
#include <vector>

#include "daemon/board/snapshot/field_record.hpp"
#include "daemon/board/snapshot/snapshot.hpp"

namespace gley::daemon {

/// What a field's page shows beyond this moment.
struct FieldDetails {
  FieldRecord record = {};  ///< its last days
  std::optional<FieldAheadView> ahead = {};
  std::vector<MachineChange> changes = {};
  std::optional<double> buffer_ha = {};  ///< of its area, in buffers to water; with a boundary
};

/// One field with its numbers, layers, machines and materials. `field` is one of the board's.
[[nodiscard]] std::string field_page(const FieldView& field, const BoardSnapshot& board,
                                     const FieldDetails& details = {});

}  // namespace gley::daemon

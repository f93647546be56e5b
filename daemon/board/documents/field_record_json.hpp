#pragma once
#include <string>

#include "daemon/board/snapshot/field_record.hpp"

/// What the charts draw, compact: one array a quantity, its unit in its name. CSV for a
/// spreadsheet.
namespace gley::daemon {

[[nodiscard]] std::string record_json(const FieldRecord& record);
/// "null" where no forecast is young enough.
[[nodiscard]] std::string ahead_json(const std::optional<FieldAheadView>& ahead);
[[nodiscard]] std::string seasons_json(const SeasonsView& seasons);
/// One row a season, latest first (RFC 4180).
[[nodiscard]] std::string seasons_csv(const SeasonsView& seasons);

}  // namespace gley::daemon

#pragma once
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace gley::daemon {

struct CsvRow {
  std::uint32_t line = 0;  ///< line on which the row begins, 1 for the first
  std::vector<std::string> cells;
};

/// The rows of a CSV text (RFC 4180: quoted cells, doubled quotes, CRLF or LF). Empty lines are
/// skipped, spaces around an unquoted cell belong to nobody and are dropped.
[[nodiscard]] std::vector<CsvRow> csv_rows(std::string_view text);

}  // namespace gley::daemon

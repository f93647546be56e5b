#pragma once
#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "daemon/engine/fields/field_history.hpp"
#include "daemon/readings/day_record.hpp"

namespace gley::daemon {

/// A station's day on record.
struct DatedRecord {
  std::chrono::sys_days date;
  DayRecord record;

  friend bool operator==(const DatedRecord&, const DatedRecord&) = default;
};

/// What the book of a farm is made of, as far as a start can go on from it: the same days and the
/// same evenings that a start from the readings would come to.
struct BookCheckpoint {
  std::chrono::sys_days closed;                        ///< the last day that the fields have seen
  std::vector<std::vector<DatedRecord>> records;       ///< by station, in the farm's order
  std::vector<std::vector<FieldHistory::Mark>> marks;  ///< by field, in the farm's order

  friend bool operator==(const BookCheckpoint&, const BookCheckpoint&) = default;
};

/// The book, and which rows of the store it was made of.
struct Checkpoint {
  std::int64_t seen_id = 0;  ///< all readings up to this row
  std::uint64_t given = 0;   ///< checksum of the days that people loaded and accepted
  BookCheckpoint book;

  friend bool operator==(const Checkpoint&, const Checkpoint&) = default;
};

/// As bytes for this very build, their checksum first.
[[nodiscard]] std::string bytes_of(const Checkpoint& checkpoint);

/// Empty if the bytes are not whole.
[[nodiscard]] std::optional<Checkpoint> checkpoint_from(std::string_view bytes);

}  // namespace gley::daemon

#pragma once
#include <filesystem>
#include <vector>

#include "daemon/engine/fields/field_book.hpp"

namespace gley::daemon {

/// Which days of which fields a replay writes.
struct ReplaySpan {
  DayRange days;
  std::vector<std::size_t> fields;  ///< indices into the book
};

/// Writes days.csv, machines.csv, spreading.csv and alerts.csv into a folder, each to a temporary
/// name first, so that a reader never sees half a file. Throws std::runtime_error naming the file
/// that cannot be written.
void write_replay(const FieldBook& book, const FarmConfig& farm, const ReplaySpan& span,
                  const std::filesystem::path& folder);

}  // namespace gley::daemon

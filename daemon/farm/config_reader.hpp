#pragma once
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "daemon/farm/farm_config.hpp"

namespace gley::daemon {

/// One thing wrong in the configuration, in words a person can act on.
struct ConfigProblem {
  FilePlace place;
  std::string message;

  /// "file:line: message"
  [[nodiscard]] std::string to_line() const;
};

/// What came of reading a configuration: a farm only if there is no problem at all.
struct ConfigResult {
  std::optional<FarmConfig> farm;
  std::vector<ConfigProblem> problems;
};

/// Reads the file and all it includes, and reports every problem, not the first one only:
/// unreadable files, syntax, unknown keys (with the nearest known one), wrong types, values out of
/// range, unknown soils, crops and stations, duplicate ids. Never throws for bad input.
[[nodiscard]] ConfigResult read_config(const std::filesystem::path& file);

}  // namespace gley::daemon

#pragma once
#include <toml++/toml.h>

#include <filesystem>
#include <string>
#include <vector>

#include "daemon/farm/problem_list.hpp"

namespace gley::daemon {

/// One file of the configuration. Paths in it are relative to `directory`.
struct ConfigFile {
  std::string name;  ///< as messages name it
  std::filesystem::path directory;
  std::string text;
  toml::table table;
};

struct ConfigFiles {
  std::vector<ConfigFile> files;   ///< the first file, then each it includes, in order
  std::vector<std::string> names;  ///< of these and of those that could not be read
  bool complete = true;            ///< every file was read and is TOML
};

/// Reads a file and all it includes. A file that cannot be read, is not TOML, or is included twice
/// or by itself is a problem, and the others are read all the same.
[[nodiscard]] ConfigFiles load_config_files(const std::filesystem::path& first,
                                            ProblemList& problems);

}  // namespace gley::daemon

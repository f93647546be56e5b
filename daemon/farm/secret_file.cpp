#include "daemon/farm/secret_file.hpp"

#include <spdlog/spdlog.h>

#include <fstream>
#include <stdexcept>

namespace gley::daemon {
namespace {

namespace fs = std::filesystem;

bool others_have(fs::perms right, const fs::path& path) {
  std::error_code error;
  const fs::perms given = fs::status(path, error).permissions();
  return !error && (given & right) != fs::perms::none;
}

/// Its folder may be closed to them, as that of the service's configuration is.
bool all_may_read(const fs::path& file) {
  return others_have(fs::perms::others_read, file) &&
         others_have(fs::perms::others_exec, fs::absolute(file).parent_path());
}

}  // namespace

std::string secret_of(const std::filesystem::path& file, const std::string& what) {
  std::ifstream in(file);
  std::string secret;
  std::getline(in, secret);
  const std::size_t end = secret.find_last_not_of(" \t\r");
  secret.erase(end == std::string::npos ? 0 : end + 1);
  if (secret.empty()) {
    throw std::runtime_error(
        file.string() + ": cannot be read or its first line is empty; it must hold the " + what);
  }
  if (all_may_read(file)) {
    spdlog::warn("{}: everybody on this machine may read the {}: chmod o-r {}", file.string(), what,
                 file.string());
  }
  return secret;
}

}  // namespace gley::daemon

#pragma once
#include <string>
#include <vector>

#include "daemon/farm/config_files.hpp"

namespace gley::daemon {

/// 16 hexadecimal digits of all that the configuration says: the files' texts in order and the
/// reference tables. FNV-1a, 64 bit (Fowler, Noll, Vo): tells versions apart, is no protection
/// against intent.
[[nodiscard]] std::string hash_of(const std::vector<ConfigFile>& files);

}  // namespace gley::daemon

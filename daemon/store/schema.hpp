#pragma once
#include <filesystem>

#include "daemon/store/database.hpp"

namespace gley::daemon {

/// The schema this program writes; SQLite keeps a file's own in `user_version`.
inline constexpr int schema_version = 4;

/// Opens the store, made or brought to this program's schema as need be: forward only, all or
/// nothing. Throws StoreError, also for a file of a newer program and for a database that is not a
/// store of ours.
[[nodiscard]] Database open_store(const std::filesystem::path& file, Durability durability);

}  // namespace gley::daemon

#pragma once
#include <filesystem>

namespace gley::daemon {

/// Held by the one daemon that uses a store: a second one would be the same client to the broker,
/// and the two would take the session from each other without end. Freed when destroyed or killed.
class StoreLock {
 public:
  /// Locks the file beside the store, "<store>.lock". Throws StoreError if it is held already.
  explicit StoreLock(const std::filesystem::path& store);
  ~StoreLock();
  StoreLock(const StoreLock&) = delete;
  StoreLock& operator=(const StoreLock&) = delete;

  /// Whether a daemon holds it; only asks, so a daemon that starts meanwhile is not kept from it. A
  /// lock file that may not be read is some daemon's.
  [[nodiscard]] static bool is_held(const std::filesystem::path& store);

 private:
  int descriptor_ = -1;
};

}  // namespace gley::daemon

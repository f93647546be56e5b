#pragma once
#include <filesystem>

namespace gley::daemon {

/// Held by the one daemon that uses a store: a second one would be the same client to the broker,
/// and the two would take the session from each other without end. Freed when destroyed or killed.
class StoreLock {
 public:
  /// Locks the file beside the store, "<store>.lock". Throws StoreError if another process has it.
  explicit StoreLock(const std::filesystem::path& store);
  ~StoreLock();
  StoreLock(const StoreLock&) = delete;
  StoreLock& operator=(const StoreLock&) = delete;

 private:
  int descriptor_ = -1;
};

}  // namespace gley::daemon

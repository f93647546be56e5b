#include "daemon/store/store_lock.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {

StoreLock::StoreLock(const std::filesystem::path& store) {
  const std::string file = store.string() + ".lock";
  descriptor_ = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor_ < 0) {
    throw StoreError(file + ": " + std::strerror(errno), SQLITE_CANTOPEN);
  }
  if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) return;
  const int error = errno;
  ::close(descriptor_);
  if (error == EWOULDBLOCK) {
    throw StoreError(store.string() + ": another gleyd is running on this store; stop it first",
                     SQLITE_LOCKED);
  }
  throw StoreError(file + ": " + std::strerror(error), SQLITE_CANTOPEN);
}

// The file stays: to remove it would let a third process lock a new one while a second waits here.
StoreLock::~StoreLock() {
  ::close(descriptor_);
}

}  // namespace gley::daemon

#include "daemon/store/store_lock.hpp"

#include <fcntl.h>
#include <sqlite3.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {

namespace {

std::string lock_file(const std::filesystem::path& store) {
  return store.string() + ".lock";
}

/// Of the whole file. Locks of open file descriptions (fcntl(2)) can be asked about without being
/// taken, and end with the descriptor or the process.
struct flock whole_file(short type) {
  struct flock lock {};
  lock.l_type = type;
  lock.l_whence = SEEK_SET;
  return lock;
}

}  // namespace

StoreLock::StoreLock(const std::filesystem::path& store) {
  const std::string file = lock_file(store);
  descriptor_ = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (descriptor_ < 0) {
    throw StoreError::of(file, std::strerror(errno), SQLITE_CANTOPEN);
  }
  auto lock = whole_file(F_WRLCK);
  if (::fcntl(descriptor_, F_OFD_SETLK, &lock) == 0) return;
  const int error = errno;
  ::close(descriptor_);
  if (error == EAGAIN || error == EACCES) {
    throw StoreError(store.string() + ": another gleyd is running on this store; stop it first",
                     SQLITE_LOCKED);
  }
  throw StoreError(file + ": " + std::strerror(error), SQLITE_CANTOPEN);
}

// The file stays: to remove it would let a third process lock a new one while a second waits here.
StoreLock::~StoreLock() {
  ::close(descriptor_);
}

bool StoreLock::is_held(const std::filesystem::path& store) {
  const int descriptor = ::open(lock_file(store).c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor < 0) return errno != ENOENT;
  auto lock = whole_file(F_RDLCK);
  const bool asked = ::fcntl(descriptor, F_OFD_GETLK, &lock) == 0;
  ::close(descriptor);
  return asked && lock.l_type != F_UNLCK;
}

}  // namespace gley::daemon

// A library to preload: a disk that fills up, loses what was not synced, a clock that jumps and a
// broker that cannot be written to, for one process and without root. What it does at any moment
// stands in a page that the test writes to (fault_page.hpp), in the directory that GLEY_FAULTS
// names.
#include <dlfcn.h>
#include <fcntl.h>
#include <pthread.h>
#include <sys/mman.h>
#include <sys/uio.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdarg>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string>

#include "tests/faults/fault_page.hpp"

namespace {

using gley::tests::FaultPage;

template <class Function>
Function* next(const char* name) {
  return reinterpret_cast<Function*>(::dlsym(RTLD_NEXT, name));
}

std::string directory() {
  const char* path = std::getenv("GLEY_FAULTS");
  return path == nullptr ? std::string() : std::string(path) + '/';
}

/// The page, mapped once; a page of zeros, which means no fault, where there is none.
const FaultPage& page() {
  static const FaultPage none{};
  static const FaultPage* const mapped = [] {
    const int file = ::open((directory() + "page").c_str(), O_RDONLY | O_CLOEXEC);
    if (file < 0) return &none;
    void* at = ::mmap(nullptr, sizeof(FaultPage), PROT_READ, MAP_SHARED, file, 0);
    ::close(file);
    return at == MAP_FAILED ? &none : static_cast<const FaultPage*>(at);
  }();
  return *mapped;
}

std::string path_of(int descriptor) {
  char path[4096];
  const std::string link = "/proc/self/fd/" + std::to_string(descriptor);
  const auto length = ::readlink(link.c_str(), path, sizeof(path));
  return length <= 0 ? std::string() : std::string(path, static_cast<std::size_t>(length));
}

/// The store's file name if the descriptor is the store's, its log included.
std::string store_file(int descriptor) {
  const std::string path = path_of(descriptor);
  const auto name = path.substr(path.rfind('/') + 1);
  const bool is_store = name.find(".db") != std::string::npos && !name.ends_with("-shm");
  return is_store ? name : std::string();
}

bool refused(int descriptor) {
  if (page().disk_full == 0 || store_file(descriptor).empty()) return false;
  errno = ENOSPC;
  return true;
}

/// Keeps what the disk holds for certain after a sync. Through the same descriptor: to close
/// another one would give up the process's locks on the file (fcntl(2)).
void keep_synced(int descriptor) {
  const std::string name = store_file(descriptor);
  if (name.empty() || directory().empty()) return;
  const std::string kept = directory() + "synced/" + name;
  const int out = ::open((kept + ".part").c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0600);
  if (out < 0) return;
  static thread_local char block[1 << 16];
  off_t at = 0;
  for (;;) {
    const ssize_t got = ::pread(descriptor, block, sizeof(block), at);
    if (got <= 0) break;
    const auto write_on = next<ssize_t(int, const void*, size_t)>("write");
    if (write_on(out, block, static_cast<size_t>(got)) != got) break;
    at += got;
  }
  ::close(out);
  (void)::rename((kept + ".part").c_str(), kept.c_str());
}

template <class Sync>
int synced(Sync* sync, int descriptor) {
  const int result = sync(descriptor);
  if (result == 0) keep_synced(descriptor);
  return result;
}

/// Whether these are the first bytes of a PUBLISH (MQTT 5.0, table 2-1) that is to fail; counts it.
bool publish_fails(const iovec* parts, int count) {
  static std::atomic<std::int64_t> failed = 0;
  if (failed >= page().failed_publishes || count < 1 || parts[0].iov_len < 1) return false;
  constexpr unsigned publish = 3;
  if (*static_cast<const unsigned char*>(parts[0].iov_base) >> 4U != publish) return false;
  ++failed;
  errno = ECONNRESET;
  return true;
}

}  // namespace

extern "C" {

ssize_t write(int descriptor, const void* bytes, size_t count) {
  static const auto real = next<ssize_t(int, const void*, size_t)>("write");
  return refused(descriptor) ? -1 : real(descriptor, bytes, count);
}

/// Of all that the daemon links, only the MQTT library writes by this.
ssize_t writev(int descriptor, const iovec* parts, int count) {
  static const auto real = next<ssize_t(int, const iovec*, int)>("writev");
  return publish_fails(parts, count) ? -1 : real(descriptor, parts, count);
}

ssize_t pwrite64(int descriptor, const void* bytes, size_t count, off64_t at) {
  static const auto real = next<ssize_t(int, const void*, size_t, off64_t)>("pwrite64");
  return refused(descriptor) ? -1 : real(descriptor, bytes, count, at);
}

int ftruncate64(int descriptor, off64_t length) noexcept {
  static const auto real = next<int(int, off64_t)>("ftruncate64");
  return refused(descriptor) ? -1 : real(descriptor, length);
}

int fsync(int descriptor) {
  static const auto real = next<int(int)>("fsync");
  return synced(real, descriptor);
}

int fdatasync(int descriptor) {
  static const auto real = next<int(int)>("fdatasync");
  return synced(real, descriptor);
}

int clock_gettime(clockid_t clock, timespec* time) noexcept {
  static const auto real = next<int(clockid_t, timespec*)>("clock_gettime");
  const int result = real(clock, time);
  if (result == 0 && clock == CLOCK_REALTIME) time->tv_sec += page().clock_ahead_s;
  return result;
}

/// Who waits until a time of the wall clock that we made means that time by the kernel's clock. The
/// few seconds that a steady clock counts since the machine's start are no such time.
int pthread_cond_timedwait(pthread_cond_t* condition, pthread_mutex_t* mutex,
                           const timespec* until) {
  static const auto real =
      next<int(pthread_cond_t*, pthread_mutex_t*, const timespec*)>("pthread_cond_timedwait");
  constexpr time_t year_2001 = 1'000'000'000;
  timespec meant = *until;
  if (meant.tv_sec > year_2001) meant.tv_sec -= page().clock_ahead_s;
  return real(condition, mutex, &meant);
}

}  // extern "C"

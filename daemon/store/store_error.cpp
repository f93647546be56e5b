#include "daemon/store/store_error.hpp"

#include <pwd.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

namespace gley::daemon {

namespace {

/// The user that a file or folder belongs to, by name where it has one.
std::string owner_of(const std::filesystem::path& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0) return "another user";
  const passwd* user = ::getpwuid(status.st_uid);
  return user == nullptr ? "user " + std::to_string(status.st_uid) : user->pw_name;
}

std::string not_writable(const std::filesystem::path& path) {
  return "; this user may not write " + path.string() + ", which belongs to " + owner_of(path);
}

std::string advice(const std::string& file, int code) {
  switch (code) {
    case SQLITE_CANTOPEN:
    case SQLITE_READONLY:
      return why_not_written(file);
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return "; the file is damaged: stop gleyd, keep the file aside, and put a copy made by "
             "'gleyd "
             "backup' in its place";
    case SQLITE_FULL:
      return "; make room on its disk";
    default:
      return "";
  }
}

}  // namespace

std::string why_not_written(const std::filesystem::path& file) {
  if (::access(file.c_str(), F_OK) == 0)
    return ::access(file.c_str(), R_OK | W_OK) == 0 ? "" : not_writable(file);
  const std::filesystem::path parent = file.parent_path();
  const std::filesystem::path folder = parent.empty() ? "." : parent;
  std::error_code error;
  if (!std::filesystem::exists(folder, error) && !error)
    return "; there is no folder " + folder.string() + ": make it, or mend the path";
  return ::access(folder.c_str(), W_OK | X_OK) == 0 ? "" : not_writable(folder);
}

StoreError StoreError::of(const std::string& file, const std::string& said, int code) {
  const int primary = code & 0xff;
  return {file + ": " + said + advice(file, primary), primary};
}

bool StoreError::may_pass() const {
  return code_ == SQLITE_FULL || code_ == SQLITE_IOERR || code_ == SQLITE_BUSY ||
         code_ == SQLITE_LOCKED || code_ == SQLITE_CANTOPEN;
}

}  // namespace gley::daemon

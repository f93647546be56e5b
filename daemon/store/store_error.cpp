#include "daemon/store/store_error.hpp"

#include <sqlite3.h>

namespace gley::daemon {

namespace {

const char* advice(int code) {
  switch (code) {
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

StoreError StoreError::of(const std::string& file, const std::string& said, int code) {
  const int primary = code & 0xff;
  return {file + ": " + said + advice(primary), primary};
}

bool StoreError::may_pass() const {
  return code_ == SQLITE_FULL || code_ == SQLITE_IOERR || code_ == SQLITE_BUSY ||
         code_ == SQLITE_LOCKED || code_ == SQLITE_CANTOPEN;
}

}  // namespace gley::daemon

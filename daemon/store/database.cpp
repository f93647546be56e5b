#include "daemon/store/database.hpp"

#include <sqlite3.h>

#include "daemon/store/store_error.hpp"

namespace gley::daemon {
namespace {

[[noreturn]] void fail(const std::string& file, sqlite3* handle, int code) {
  throw StoreError::of(file, handle == nullptr ? sqlite3_errstr(code) : sqlite3_errmsg(handle),
                       code);
}

}  // namespace

Database::Database(const std::filesystem::path& file, Durability durability)
    : file_(file.string()) {
  sqlite3* handle = nullptr;
  const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX;
  const int opened = sqlite3_open_v2(file_.c_str(), &handle, flags, nullptr);
  handle_.reset(handle);
  if (opened != SQLITE_OK) fail(file_, handle, opened);
  sqlite3_extended_result_codes(handle, 1);
  constexpr int patience_ms = 5000;  // well under the broker's keep-alive of 30 s
  sqlite3_busy_timeout(handle, patience_ms);
  execute(durability == Durability::power ? "PRAGMA synchronous = FULL"
                                          : "PRAGMA synchronous = NORMAL");
  execute("PRAGMA foreign_keys = ON");
}

void Database::Closer::operator()(sqlite3* handle) const {
  sqlite3_close_v2(handle);
}

void Database::execute(const std::string& sql) {
  const int code = sqlite3_exec(handle_.get(), sql.c_str(), nullptr, nullptr, nullptr);
  if (code != SQLITE_OK) fail(file_, handle_.get(), code);
}

Statement Database::prepare(std::string_view sql) const {
  return {handle_.get(), file_, sql};
}

std::int64_t Database::number(std::string_view sql) const {
  return prepare(sql).number();
}

void Database::copy_to(const std::filesystem::path& copy) const {
  if (std::filesystem::exists(copy)) {
    throw StoreError(copy.string() + ": exists already; name a new file", SQLITE_CANTOPEN);
  }
  if (const std::string why = why_not_written(copy); !why.empty())
    throw StoreError(copy.string() + ": cannot be written" + why, SQLITE_CANTOPEN);
  prepare("VACUUM INTO ?").run(copy.string());
}

Transaction::Transaction(Database& database) : database_(database) {
  database_.execute("BEGIN IMMEDIATE");
}

Transaction::~Transaction() {
  // Some failures roll back by themselves; a second roll-back would be an error of its own.
  sqlite3* handle = database_.handle_.get();
  if (sqlite3_get_autocommit(handle) == 0) {
    sqlite3_exec(handle, "ROLLBACK", nullptr, nullptr, nullptr);
  }
}

void Transaction::commit() {
  database_.execute("COMMIT");
}

}  // namespace gley::daemon

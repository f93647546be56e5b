#include "daemon/store/statement.hpp"

#include <sqlite3.h>

#include "daemon/store/store_error.hpp"
#include "daemon/text/date_text.hpp"

namespace gley::daemon {

std::int64_t Row::integer(int column) const {
  return sqlite3_column_int64(statement_, column);
}

double Row::real(int column) const {
  return sqlite3_column_double(statement_, column);
}

std::string Row::text(int column) const {
  const auto* bytes = static_cast<const char*>(sqlite3_column_blob(statement_, column));
  const auto size = static_cast<std::size_t>(sqlite3_column_bytes(statement_, column));
  return bytes == nullptr ? std::string() : std::string(bytes, size);
}

bool Row::is_null(int column) const {
  return sqlite3_column_type(statement_, column) == SQLITE_NULL;
}

std::optional<double> Row::optional_real(int column) const {
  return is_null(column) ? std::nullopt : std::optional(real(column));
}

std::optional<std::string> Row::optional_text(int column) const {
  return is_null(column) ? std::nullopt : std::optional(text(column));
}

Instant Row::instant(int column) const {
  return Instant(std::chrono::milliseconds(integer(column)));
}

std::optional<Instant> Row::optional_instant(int column) const {
  return is_null(column) ? std::nullopt : std::optional(instant(column));
}

std::chrono::sys_days Row::date(int column) const {
  const auto date = date_from(text(column));
  if (date) return *date;
  const std::string file = sqlite3_db_filename(sqlite3_db_handle(statement_), "main");
  throw StoreError::of(file, "'" + text(column) + "' stands where a date belongs", SQLITE_CORRUPT);
}

Statement::Statement(sqlite3* database, std::string file, std::string_view sql)
    : database_(database), file_(std::move(file)) {
  sqlite3_stmt* statement = nullptr;
  check(sqlite3_prepare_v3(database, sql.data(), static_cast<int>(sql.size()),
                           SQLITE_PREPARE_PERSISTENT, &statement, nullptr));
  statement_.reset(statement);
}

void Statement::Finalizer::operator()(sqlite3_stmt* statement) const {
  sqlite3_finalize(statement);
}

std::int64_t Statement::changes() const {
  return sqlite3_changes64(database_);
}

void Statement::bind(int place, std::int64_t value) {
  check(sqlite3_bind_int64(statement_.get(), place, value));
}

void Statement::bind(int place, double value) {
  check(sqlite3_bind_double(statement_.get(), place, value));
}

void Statement::bind(int place, std::string_view value) {
  // Arguments outlive the run, so SQLite need not copy them. An empty view may point nowhere,
  // which SQLite would take as NULL.
  const char* text = value.data() == nullptr ? "" : value.data();
  check(
      sqlite3_bind_text64(statement_.get(), place, text, value.size(), SQLITE_STATIC, SQLITE_UTF8));
}

void Statement::bind(int place, Blob value) {
  const char* bytes = value.bytes.data() == nullptr ? "" : value.bytes.data();
  check(sqlite3_bind_blob64(statement_.get(), place, bytes, value.bytes.size(), SQLITE_STATIC));
}

void Statement::bind(int place, std::chrono::sys_days value) {
  const std::string text = date_text(value);
  check(sqlite3_bind_text64(statement_.get(), place, text.data(), text.size(), SQLITE_TRANSIENT,
                            SQLITE_UTF8));
}

void Statement::bind_null(int place) {
  check(sqlite3_bind_null(statement_.get(), place));
}

bool Statement::step() {
  const int code = sqlite3_step(statement_.get());
  if (code == SQLITE_ROW) return true;
  if (code != SQLITE_DONE) check(code);
  return false;
}

void Statement::reset() noexcept {
  sqlite3_reset(statement_.get());
  sqlite3_clear_bindings(statement_.get());
}

void Statement::check(int code) const {
  if (code == SQLITE_OK) return;
  throw StoreError::of(file_, sqlite3_errmsg(database_), code);
}

}  // namespace gley::daemon

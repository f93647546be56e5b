#pragma once
#include <chrono>
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "daemon/readings/reading.hpp"

struct sqlite3;
struct sqlite3_stmt;

namespace gley::daemon {

/// Bytes, where a string_view would be text.
struct Blob {
  std::string_view bytes;
};

/// One row of a result; valid only while it is being visited. Columns count from 0.
class Row {
 public:
  explicit Row(sqlite3_stmt* statement) : statement_(statement) {}
  [[nodiscard]] std::int64_t integer(int column) const;
  [[nodiscard]] double real(int column) const;
  [[nodiscard]] std::string text(int column) const;  ///< also a blob's bytes
  [[nodiscard]] Instant instant(int column) const;   ///< of its milliseconds
  /// Of its text, as 2026-03-20. Throws StoreError if it is none: the store is damaged.
  [[nodiscard]] std::chrono::sys_days date(int column) const;
  [[nodiscard]] std::optional<double> optional_real(int column) const;
  [[nodiscard]] std::optional<std::string> optional_text(int column) const;
  [[nodiscard]] std::optional<Instant> optional_instant(int column) const;

 private:
  [[nodiscard]] bool is_null(int column) const;

  sqlite3_stmt* statement_;
};

/// A prepared statement, used any number of times; after each use, also one that failed, it is
/// ready for the next. Not for two threads at once, as its Database.
class Statement {
 public:
  Statement(sqlite3* database, std::string file, std::string_view sql);

  /// Runs a statement that gives no rows. Arguments take the place of '?' in order.
  template <typename... Arguments>
  void run(const Arguments&... arguments) {
    const Use use(*this);
    bind_all(arguments...);
    while (step()) {
    }
  }

  /// Runs and visits each row, in order. Visitors must not use this statement.
  template <typename... Arguments>
  void visit(const std::function<void(const Row&)>& visitor, const Arguments&... arguments) {
    const Use use(*this);
    bind_all(arguments...);
    while (step()) visitor(Row(statement_.get()));
  }

  /// The whole number in the one row and column of the result; 0 if there is no row.
  [[nodiscard]] std::int64_t number() {
    std::int64_t number = 0;
    visit([&](const Row& row) { number = row.integer(0); });
    return number;
  }

  /// Rows changed by the last run of this statement's database.
  [[nodiscard]] std::int64_t changes() const;

 private:
  struct Finalizer {
    void operator()(sqlite3_stmt* statement) const;
  };
  struct Use {
    explicit Use(Statement& used) : statement(used) {}
    ~Use() { statement.reset(); }
    Use(const Use&) = delete;
    Use& operator=(const Use&) = delete;
    Statement& statement;
  };

  template <typename... Arguments>
  void bind_all(const Arguments&... arguments) {
    [[maybe_unused]] int place = 0;
    (bind(++place, arguments), ...);
  }
  void bind(int place, std::int64_t value);
  void bind(int place, int value) { bind(place, static_cast<std::int64_t>(value)); }
  void bind(int place, double value);
  void bind(int place, std::string_view value);
  void bind(int place, const std::string& value) { bind(place, std::string_view(value)); }
  void bind(int place, const char* value) { bind(place, std::string_view(value)); }
  void bind(int place, Blob value);
  void bind(int place, Instant value) { bind(place, value.time_since_epoch().count()); }
  void bind(int place, std::chrono::sys_days value);
  void bind_null(int place);
  template <typename Value>
  void bind(int place, const std::optional<Value>& value) {
    if (value) {
      bind(place, *value);
    } else {
      bind_null(place);
    }
  }
  bool step();
  void reset() noexcept;
  void check(int code) const;

  sqlite3* database_;
  std::string file_;
  std::unique_ptr<sqlite3_stmt, Finalizer> statement_;
};

}  // namespace gley::daemon

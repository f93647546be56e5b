#pragma once
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "daemon/farm/farm_config.hpp"
#include "daemon/store/statement.hpp"

namespace gley::daemon {

/// One connection to the store's file, which waits up to 5 s for another connection's write.
/// `power` syncs the file at each commit, so a commit survives a power cut; `process` leaves that
/// to the system, so it survives a kill. One thread at a time; each thread opens its own.
class Database {
 public:
  /// Opens the file, or makes it. Throws StoreError.
  Database(const std::filesystem::path& file, Durability durability);

  void execute(const std::string& sql);
  [[nodiscard]] Statement prepare(std::string_view sql) const;
  [[nodiscard]] std::int64_t number(std::string_view sql) const;  ///< of a query with one result
  [[nodiscard]] const std::string& file() const { return file_; }

  /// A copy of the whole store, as of one moment, while others go on writing. Throws StoreError,
  /// also if the copy exists already.
  void copy_to(const std::filesystem::path& copy) const;

 private:
  friend class Transaction;
  struct Closer {
    void operator()(sqlite3* handle) const;
  };

  std::string file_;
  std::unique_ptr<sqlite3, Closer> handle_;
};

/// All or nothing: takes the write lock at once and rolls back unless committed.
class Transaction {
 public:
  explicit Transaction(Database& database);
  ~Transaction();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;
  void commit();

 private:
  Database& database_;
};

}  // namespace gley::daemon

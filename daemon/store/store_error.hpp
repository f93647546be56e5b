#pragma once
#include <filesystem>
#include <stdexcept>
#include <string>

namespace gley::daemon {

/// The store could not do what was asked: what it was, the file, and SQLite's own words.
class StoreError : public std::runtime_error {
 public:
  StoreError(const std::string& message, int code) : std::runtime_error(message), code_(code) {}

  /// What SQLite said of a file, and what to do about it. `code` may be an extended one.
  [[nodiscard]] static StoreError of(const std::string& file, const std::string& said, int code);

  /// True if the same may well succeed later: disk full, input or output error, locked or busy.
  [[nodiscard]] bool may_pass() const;

 private:
  int code_;  ///< SQLite's primary result code
};

/// Why a file cannot be written, to follow a message: it or its folder is another user's, or there
/// is no such folder. Empty if none of these. Nobody makes the folder: a slip in its name would
/// begin a second, empty store.
[[nodiscard]] std::string why_not_written(const std::filesystem::path& file);

}  // namespace gley::daemon
